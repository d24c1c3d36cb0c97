import type { Engine } from '../job/schema.ts'
import type { MeasuredEvent } from './figures.ts'
import { inFrames, turnsOfFrames } from './frames.ts'
import { cycleIntervals, turnsPerCycle } from './speed.ts'

/** Mean speed over one working cycle of one cylinder. */
export interface CycleSpeed {
  atS: number
  intervalS: number
  rpm: number
  /** The cycle's first event or its last is not of the capture's condition (see `own-speed.ts`). */
  leftOut?: boolean
}

/** What cycle speeds need to know of the engine. */
export type SpeedEngine = Pick<Engine, 'strokes'> & Partial<Pick<Engine, 'firing_order'>>

/**
 * Cycle speeds of each cylinder, in order of time; cycles with a missing event left out. Of a record in frames: one a
 * frame that shows some, all in one series.
 */
export function cycleSpeeds(events: readonly MeasuredEvent[], engine: SpeedEngine): CycleSpeed[][] {
  const firing = events.filter((e) => e.kind === 'firing' && e.cylinder !== undefined)
  const turns = turnsPerCycle(engine.strokes)
  return inFrames(events) ? [frameSeries(firing, engine)] : cylinderSeries(firing, turns)
}

function frameSeries(
  firing: readonly MeasuredEvent[],
  { strokes, firing_order = [] }: SpeedEngine,
): CycleSpeed[] {
  const ordered = firing.toSorted((a, b) => a.breakdownS - b.breakdownS)
  const turns = turnsOfFrames(ordered, { firingOrder: firing_order, turnsPerCycle: turnsPerCycle(strokes) })
  return [...turns].map(([frame, { fromS, spanS, turns: n }]) => ({
    atS: fromS + spanS / 2,
    intervalS: (spanS / n) * turnsPerCycle(strokes),
    rpm: (60 * n) / spanS,
    leftOut: ordered.some((e) => e.frame === frame && isLeftOut(e)),
  }))
}

function cylinderSeries(firing: readonly MeasuredEvent[], turns: number): CycleSpeed[][] {
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
