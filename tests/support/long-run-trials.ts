import { makeRandom, type Random } from '../../src/maths/random.ts'
import type { EventFigure } from '../../src/metrics/figures.ts'
import { longRuns } from '../../src/metrics/long-run.ts'
import { summariseFigure } from '../../src/metrics/summarise.ts'

/** What luck an engine of the trials has. All invented. */
export interface LongRunKind {
  /** Of neighbouring events. */
  correlation: number
  n: number
  cylinders?: number
  /** Share of the scatter that all cylinders have in common. */
  together?: number
  /** Late rise in points, or firing voltage, which the recorder's gain moves. */
  unit?: '%' | 'kV'
}

/** Scatter of 4 points of late rise, or of half a kilovolt; the medians that are reached in the long run. */
const SCATTER = { '%': 4, kV: 0.5 }
const TRUTH = { '%': 20, kV: 9 }
/** Stated (k = 2); the gain of every trial is drawn from it. */
const INSTRUMENT = { voltageUncertaintyPercent: 3, timeUncertaintyPpm: 100 }
const K95 = 1.959963984540054
const CYCLE_S = 0.15

/** Normal scatter, first-order correlated from event to event. */
function series(random: Random, { correlation, n }: LongRunKind): number[] {
  let x = random.gaussian()
  return Array.from({ length: n }, (_, i) => {
    if (i > 0) x = correlation * x + Math.sqrt(1 - correlation ** 2) * random.gaussian()
    return x
  })
}

function engine(random: Random, kind: LongRunKind): number[][] {
  const { cylinders = 6, together = 0, unit = '%' } = kind
  const shared = together > 0 ? series(random, kind) : []
  return Array.from({ length: cylinders }, () =>
    series(random, kind).map(
      (x, i) =>
        TRUTH[unit] + SCATTER[unit] * (Math.sqrt(1 - together) * x + Math.sqrt(together) * (shared[i] ?? 0)),
    ),
  )
}

/** Counts over cylinders; widths are sums. */
export interface LongRunCounts {
  of: number
  held: number
  /** The same with gain and the instrument's part left out. */
  heldWithout: number
  /** Had neighbours that are alike not been reckoned with: the interval of independent events. */
  plain: number
  /** The interval lies wholly above, or wholly below, a limit at which the truth lies. */
  above: number
  below: number
  width: number
  plainWidth: number
  /** Would the same scatter about 35 % be called lean, about 10 % level, at a limit of 20 %? */
  lean: number
  level: number
  /** Only the recording is spoken of. */
  short: number
}

/** How often the stated intervals hold the median that is reached in the long run. Captures and gains are drawn anew. */
export function longRunTrial(kind: LongRunKind, engines = 150, seed = 11): LongRunCounts {
  const random = makeRandom(seed)
  const { unit = '%' } = kind
  const truth = TRUTH[unit]
  const counts: LongRunCounts = {
    of: 0,
    held: 0,
    heldWithout: 0,
    plain: 0,
    above: 0,
    below: 0,
    width: 0,
    plainWidth: 0,
    lean: 0,
    level: 0,
    short: 0,
  }
  for (let k = 0; k < engines; k++) {
    const gain = unit === 'kV' ? 1 + (INSTRUMENT.voltageUncertaintyPercent / 200) * random.gaussian() : 1
    const read = engine(random, kind).map((values) => values.map((v) => v * gain))
    const timed = read.map((values) => ({ atS: values.map((_, i) => CYCLE_S * i), values }))
    longRuns(timed, undefined).forEach(({ beyond, cyclesNeeded }, i) => {
      const figures = read[i]!.map((value): EventFigure<'%' | 'kV'> => ({ ok: true, unit, value, u: 0 }))
      const stated = summariseFigure(figures, unit, { ...INSTRUMENT, beyond })
      const plain = summariseFigure(figures, unit, INSTRUMENT)
      if (!stated.ok || !plain.ok) throw new Error('a trial needs six events')
      const { value, low, high, budget } = stated
      const instrument = K95 * (budget.find((b) => b.source === 'instrument')?.u ?? 0)
      const without = (side: number): number => Math.sqrt(Math.max(0, side * side - instrument * instrument))
      const shown = truth * gain
      counts.of += 1
      counts.held += Number(low <= truth && truth <= high)
      counts.heldWithout += Number(
        value - without(value - low) <= shown && shown <= value + without(high - value),
      )
      counts.plain += Number(plain.low <= truth && truth <= plain.high)
      counts.above += Number(low > truth)
      counts.below += Number(high < truth)
      counts.width += high - low
      counts.plainWidth += plain.high - plain.low
      counts.lean += Number(low + 15 > 20)
      counts.level += Number(high - 10 < 20)
      counts.short += Number(cyclesNeeded !== undefined)
    })
  }
  return counts
}
