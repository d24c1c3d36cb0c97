import type { SpeedMeasures } from '../metrics/figures.ts'
import type { TestFinding } from '../test-log/findings.ts'
import type { Interval } from '../units/measured.ts'

/** A reading of the whole engine taken before and after, and its change with a 95 % interval. */
export interface EngineReading {
  name: string
  condition: string | undefined
  before: Interval
  after: Interval
  change: Interval
}

/** Computed figures worth comparing: total trims, lambda, manifold pressure. */
const COMPARED = /^(totalTrimBank\d|lambda|manifoldKpa)$/

/**
 * Readings taken in both stages under the same condition; the last of each stage counts. Trims, lambda and manifold
 * pressure come from the log, the swing of the idle from the captures.
 */
export function compareReadings(
  tests: readonly TestFinding[],
  speeds: readonly SpeedMeasures[],
): EngineReading[] {
  const of = (stage: 'before' | 'after') =>
    new Map(
      tests
        .filter((t) => t.stage === stage)
        .flatMap((t) =>
          Object.entries(t.computed)
            .filter(([name]) => COMPARED.test(name))
            .map(
              ([name, interval]) =>
                [`${name} ${t.condition ?? ''}`, { name, condition: t.condition, interval }] as const,
            ),
        ),
    )
  const after = of('after')
  const logged = [...of('before')].flatMap(([key, { name, condition, interval }]) => {
    const then = after.get(key)
    return then ? [reading(name, condition, { before: interval, after: then.interval })] : []
  })
  return [...logged, ...swing(speeds)]
}

function reading(
  name: string,
  condition: string | undefined,
  { before, after }: { before: Interval; after: Interval },
): EngineReading {
  return { name, condition, before, after, change: difference(before, after) }
}

/** after - before; the two are independent, so each side's half widths add as the root of their squares (JCGM 100, 5.1.2). */
function difference(before: Interval, after: Interval): Interval {
  const value = after.value - before.value
  return {
    value,
    unit: after.unit,
    low: value - Math.hypot(after.value - after.low, before.high - before.value),
    high: value + Math.hypot(after.high - after.value, before.value - before.low),
  }
}

/** The idle's swing, where one stood out in both stages. */
function swing(speeds: readonly SpeedMeasures[]): EngineReading[] {
  const of = (stage: 'before' | 'after') => {
    const found = speeds.find((s) => s.stage === stage && s.swing.ok)?.swing
    return found?.ok
      ? {
          value: found.value,
          low: found.value - 2 * found.u,
          high: found.value + 2 * found.u,
          unit: found.unit,
        }
      : undefined
  }
  const before = of('before')
  const after = of('after')
  return before && after ? [reading('swing', undefined, { before, after })] : []
}
