import { median } from '../../maths/median.ts'
import type { MeasuredEvent } from '../../metrics/figures.ts'
import type { SpeedSeries } from '../../test-log/spray/speed-grid.ts'

/** Seconds a revolution at one revolution a minute. */
const S_PER_REV_AT_1_RPM = 60

/**
 * Engine speed from the events of every capture, for sprays whose row names a capture as its trace. An event's speed is
 * that of the cycle up to the same cylinder's next event, so it stands at the middle of that cycle.
 *
 * @param strokes  4: a cycle is two revolutions; 2: one
 * @returns        a series a capture, rising in time; empty where no event has a speed
 */
export function eventSpeeds(
  captures: readonly { entry: { file: string }; events: readonly MeasuredEvent[] }[],
  strokes: 2 | 4,
): Map<string, SpeedSeries> {
  return new Map(
    captures.map(({ entry: { file }, events }) => {
      const halfCycleS = (rpm: number) => ((strokes / 4) * S_PER_REV_AT_1_RPM) / rpm
      const readings = events
        .flatMap(({ breakdownS, figures: { rpm } }) =>
          rpm.ok ? [{ timeS: breakdownS + halfCycleS(rpm.value), rpm: rpm.value }] : [],
        )
        .sort((a, b) => a.timeS - b.timeS)
      const rpm = Float64Array.from(readings, (r) => r.rpm)
      const blurS = rpm.length > 0 ? halfCycleS(median(rpm)!) : 0
      return [file, { file, timesS: Float64Array.from(readings, (r) => r.timeS), rpm, blurS }]
    }),
  )
}
