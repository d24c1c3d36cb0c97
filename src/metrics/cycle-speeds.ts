import type { MeasuredEvent } from './figures.ts'
import { cycleIntervals } from './speed.ts'

/** Mean speed over one working cycle of one cylinder. */
export interface CycleSpeed {
  atS: number
  intervalS: number
  rpm: number
  /** The cycle's first event or its last is not of the capture's condition (see `own-speed.ts`). */
  leftOut?: boolean
}

/** Cycle speeds of each cylinder, in order of time; cycles with a missing event left out. */
export function cycleSpeeds(events: readonly MeasuredEvent[], turns: number): CycleSpeed[][] {
  const firing = events.filter((e) => e.kind === 'firing' && e.cylinder !== undefined)
  const byCylinder = [...new Set(firing.map((e) => e.cylinder))].map((cylinder) =>
    firing.filter((e) => e.cylinder === cylinder).toSorted((a, b) => a.breakdownS - b.breakdownS),
  )
  const timesOf = (own: readonly MeasuredEvent[]): number[] => own.map((e) => e.breakdownS)
  return byCylinder.map((own) => {
    const { intervalS, missing } = cycleIntervals(
      timesOf(own),
      byCylinder.filter((other) => other !== own).map(timesOf),
    )
    return intervalS.flatMap((interval, i) => {
      if (missing[i] !== 0 || !(interval > 0)) return []
      const leftOut = isLeftOut(own[i]!) || isLeftOut(own[i + 1]!)
      return [
        {
          atS: own[i]!.breakdownS + interval / 2,
          intervalS: interval,
          rpm: (60 * turns) / interval,
          leftOut,
        },
      ]
    })
  })
}

/** Whether an event was recorded while the engine was started, or away from the speed of the capture's condition. */
export const isLeftOut = ({ flags }: Pick<MeasuredEvent, 'flags'>): boolean =>
  flags.includes('starting') || flags.includes('off_speed')
