import { medianInterval } from '../../src/maths/median-interval.ts'
import { makeRandom, type Random } from '../../src/maths/random.ts'
import { longRuns, type TimedValues } from '../../src/metrics/long-run.ts'

/** Six cylinders of an engine whose long-run median is 0: normal scatter of 4 points, first-order correlated. */
function engine(random: Random, { correlation, n }: { correlation: number; n: number }): TimedValues[] {
  return Array.from({ length: 6 }, () => {
    let x = random.gaussian()
    const values = Array.from({ length: n }, (_, i) => {
      if (i > 0) x = correlation * x + Math.sqrt(1 - correlation ** 2) * random.gaussian()
      return 4 * x
    })
    return { atS: values.map((_, i) => 0.15 * i), values }
  })
}

/** How often intervals hold the long-run median, with and without the stretch, and how wide they are. */
export function longRunTrial(about: { correlation: number; n: number }, engines = 150, seed = 11) {
  const random = makeRandom(seed)
  const counts = { held: 0, plain: 0, of: 0, width: 0, plainWidth: 0, lean: 0, level: 0, short: 0 }
  for (let k = 0; k < engines; k++) {
    const cylinders = engine(random, about)
    longRuns(cylinders, undefined).forEach(({ stretch, cyclesNeeded }, i) => {
      const { value, low, high } = medianInterval(cylinders[i]!.values)!
      const [from, to] = [value - stretch * (value - low), value + stretch * (high - value)]
      counts.of += 1
      if (cyclesNeeded !== undefined) counts.short += 1
      if (from <= 0 && to >= 0) counts.held += 1
      if (low <= 0 && high >= 0) counts.plain += 1
      if (35 + from > 20) counts.lean += 1
      if (10 + to < 20) counts.level += 1
      counts.width += to - from
      counts.plainWidth += high - low
    })
  }
  return { ...counts, heldPct: (100 * counts.held) / counts.of, plainPct: (100 * counts.plain) / counts.of }
}
