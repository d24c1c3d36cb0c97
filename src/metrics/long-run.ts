import { prepareLinearFit } from '../maths/linear-fit.ts'
import { mad, MAD_TO_SD } from '../maths/mad.ts'
import { median } from '../maths/median.ts'
import { medianIntervalRanks } from '../maths/median-interval.ts'
import { serialScatter, type Series } from '../maths/serial-scatter.ts'

/** Values of one figure of one cylinder and their instants, s, in order of time. */
export interface TimedValues {
  atS: readonly number[]
  values: readonly number[]
}

/** What the order of the events does to a cylinder's interval. */
export interface LongRun {
  /** Added in squares to either half of its random part, in the figure's unit; 0 where only the recording is spoken of. */
  beyond: number
  /** Working cycles to record before the engine, not only the recording, can be spoken of; undefined where it can. */
  cyclesNeeded?: number
}

/** From so many events on, neighbours that are alike are reckoned with; below, only the recording is spoken of. */
const LEAST_FOR_CORRELATED = 20
/** Neighbours more alike than this are. */
const ALIKE = 0.35
/** Put between captures, cycles, so that no event of one is taken for the neighbour of another's. */
const CAPTURES_APART = 1e6
/** Values farther off than this many deviations say nothing of the order of the others. */
const MOST_DEVIATIONS = 3

/**
 * The interval of a median speaks of the engine in this condition, of which the capture shows a stretch: where
 * neighbouring events are alike, many of them are worth few. With whole periods of a swing in the record, the swing is
 * taken out first, since its part averages out.
 *
 * @param periodS    of the swing of the speed, where one stands out
 * @param elsewhere  the figure of other cylinders in captures of their own: how alike neighbours are is a matter of the
 *                   engine, and one cylinder alone says little of it
 * @returns          one a cylinder
 */
export function longRuns(
  cylinders: readonly TimedValues[],
  periodS: number | undefined,
  elsewhere: readonly TimedValues[] = [],
): LongRun[] {
  const { correlation, beyond } = serialScatter([
    ...cylinders.map((own) => seriesOf(own, periodS)),
    ...elsewhere.map((other, i) => later(seriesOf(other, undefined), (i + 1) * CAPTURES_APART)),
  ])
  return cylinders.map(({ values }, i) => {
    if (!medianIntervalRanks(values.length)) return { beyond: 0 }
    if (values.length >= LEAST_FOR_CORRELATED || correlation <= ALIKE) return { beyond: beyond[i]! }
    const cyclesNeeded = Math.max(
      LEAST_FOR_CORRELATED,
      Math.ceil((10 * (1 + correlation)) / (1 - correlation)),
    )
    return { beyond: 0, cyclesNeeded }
  })
}

/** Cycles of one capture are not those of another. */
const later = ({ cycles, values }: Series, by: number): Series => ({
  cycles: cycles.map((c) => c + by),
  values,
})

function seriesOf({ atS, values }: TimedValues, periodS: number | undefined): Series {
  if (values.length === 0) return { cycles: [], values: [] }
  const gaps = atS.slice(1).map((t, i) => t - atS[i]!)
  const usual = median(gaps) ?? 1
  let cycle = 0
  const cycles = [0, ...gaps.map((gap) => (cycle += Math.max(1, Math.round(gap / usual))))]
  const middle = median(values)!
  const most = MOST_DEVIATIONS * MAD_TO_SD * (mad(values) ?? 0)
  const held = values.map((v) => Math.min(middle + most, Math.max(middle - most, v)))
  return { cycles, values: periodS === undefined ? held : withoutSine(atS, held, periodS) }
}

/** What a least-squares sine of the period leaves. */
function withoutSine(atS: readonly number[], values: readonly number[], periodS: number): number[] {
  const omega = (2 * Math.PI) / periodS
  const columns = [() => 1, (t: number) => Math.cos(omega * t), (t: number) => Math.sin(omega * t)].map((f) =>
    Float64Array.from(atS, f),
  )
  const fit = prepareLinearFit(columns)?.(Float64Array.from(values))
  return values.map(
    (v, i) => v - (fit ? columns.reduce((sum, column, k) => sum + fit.coefficients[k]! * column[i]!, 0) : 0),
  )
}
