import { limit } from '../../limits/limits.ts'
import type { JobFinding } from '../finding.ts'
import type { Seen, SeenCylinder } from '../seen.ts'
import { beyondUsual } from './apart.ts'
import { burnFinding, burnGroups } from './burns.ts'
import type { FindingReader } from './reader.ts'

/** Verdicts of circuits in which the firing voltage is a symptom of what is said already. */
const SAID = new Set<SeenCylinder['verdict']>(['open secondary', 'misfiring', 'not judged'])

/** Firing voltage beyond what is usual at an idle, on every cylinder that has it so, or one cylinder apart from its fellows. */
export const firingVoltage: FindingReader = {
  kind: 'firing-voltage',
  side: 'captures',
  makes: 'fault',
  repair: { back: 'cylinder figure', newAfter: 'opposes' },
  directions: ['high', 'low'],
  read(seen) {
    const usual = beyondUsual(seen, {
      kind: 'firing-voltage',
      figure: 'firingKv',
      low: 'firingUsualLowKv',
      high: 'firingUsualHighKv',
      fit: (c) => c.kvKnown && !SAID.has(c.verdict),
    })
    const said = (f: JobFinding) =>
      usual.some(
        (u) =>
          u.state === f.state &&
          u.condition === f.condition &&
          f.where.cylinders.every((c) => u.where.cylinders.includes(c)),
      )
    return [...usual, ...apartFromFellows(seen).filter((f) => !said(f))]
  },
}

/** Cylinders wholly apart from the median of their fellows, each side together. */
function apartFromFellows(seen: Seen): JobFinding[] {
  const apart = limit(seen.limits, 'firingApartKv')
  return burnGroups(seen).flatMap((group) =>
    (['high', 'low'] as const).flatMap((direction) => {
      const of = group.cylinders.filter(
        ({ firingExcessKv: e, verdict }) =>
          e !== undefined && !SAID.has(verdict) && (direction === 'high' ? e.low > apart : e.high < -apart),
      )
      const widest = [...of].sort(
        (a, b) => Math.abs(b.firingExcessKv!.value) - Math.abs(a.firingExcessKv!.value),
      )[0]
      return widest
        ? [
            burnFinding(seen, group, {
              kind: 'firing-voltage',
              of,
              direction,
              size: { ...widest.firingExcessKv!, unit: 'kV', limitLow: -apart, limitHigh: apart },
            }),
          ]
        : []
    }),
  )
}
