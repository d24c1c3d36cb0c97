import type { Capture } from '../capture/capture.ts'
import type { CaptureEvents } from '../ignition/event.ts'
import type { CaptureEntry, Engine } from '../job/schema.ts'
import { median } from '../maths/median.ts'
import { problem, type Problem } from '../problems/problem.ts'

/**
 * Speeds an engine has in a condition, rpm: wide enough for one that is out of order, so narrow that a rate off by ten
 * lies beyond (common practice, no source). A snap of the throttle goes through all of them.
 */
const USUAL_RPM: Readonly<
  Partial<Record<CaptureEntry['condition'], readonly [least: number, most: number]>>
> = { cranking: [60, 450], idle: [350, 2000], '2500 rpm': [1500, 3500], cruise: [700, 6000] }
/** Fewer intervals say nothing of a speed. */
const LEAST_INTERVALS = 4

/**
 * Asks about a rate by which the engine would turn as it does not in the condition that is stated: a digit too many in
 * the rate, or the condition of another capture.
 */
export function rateDoubt(
  { file, entry }: Pick<Capture, 'file' | 'entry'>,
  { events }: Pick<CaptureEvents, 'events'>,
  engine: Pick<Engine, 'strokes' | 'ignition'>,
): Problem | undefined {
  const usual = USUAL_RPM[entry.condition]
  const before = new Map<string, number>()
  const intervals = events.flatMap(({ cylinder, frame, channel, breakdownS }) => {
    if (cylinder === undefined) return []
    const whose = `${cylinder} ${frame} ${channel}`
    const last = before.get(whose)
    before.set(whose, breakdownS)
    return last === undefined ? [] : [breakdownS - last]
  })
  const usualS = median(intervals)
  if (usual === undefined || usualS === undefined || intervals.length < LEAST_INTERVALS) return undefined
  // The spark that is wasted comes once between two that fire; with some pickups only one of them is seen.
  const turns = engine.strokes === 2 ? [1] : engine.ignition === 'wasted-spark' ? [1, 2] : [2]
  const speeds = turns.map((n) => (60 * n) / usualS)
  if (speeds.some((rpm) => rpm >= usual[0] && rpm <= usual[1])) return undefined
  return problem(
    'rate-doubtful',
    { file, severity: 'warn' },
    { perS: 1 / usualS, rpm: speeds[0]!, condition: entry.condition, usual: usual.join(' … ') },
  )
}
