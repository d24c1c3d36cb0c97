import { limit, type Limits } from '../limits/limits.ts'
import { cycleSpeeds, type CycleSpeed, type SpeedEngine } from './cycle-speeds.ts'
import type { MeasuredEvent } from './figures.ts'

/** What an event's own speed is judged by. */
export interface OwnSpeedAbout {
  condition: string
  engine: SpeedEngine
  limits: Limits
}

/** Why an event is not of the capture's condition. */
type Apart = 'starting' | 'off_speed'

/**
 * The condition's speeds reach beyond the densest half of the record by this many times its width. The densest half of
 * a stretch of a sine may be 0.55 amplitudes wide and leave 1.45 on one side: 2.6 widths.
 */
const REACH = 3
/** The engine is back in its condition when it stays there this long, s: a run-up passes through in less. */
const SETTLED_S = 0.3
/** Excursions alike that come back this often are the condition's own: an idle that hunts by surges or near stalls. */
const COMES_BACK = 3
const ALIKE_WITHIN = 0.3
/** Fewest speeds to find a condition in. */
const LEAST_SPEEDS = 6

/**
 * Marks events that are not of the capture's condition by their own speed: `starting` (cranking, and the run-up until
 * the engine has settled) and `off_speed` (a blip of the throttle, a stall). Events of the condition stay whatever the
 * swing. A snap of the throttle has no speed of its own, and nothing is marked there.
 *
 * The condition's speeds lie about the narrowest band that holds half of the record's time; an idle's between the
 * speed an engine is cranked at and the highest that is one.
 *
 * @source this project's judgement
 */
export function markOwnSpeed(events: readonly MeasuredEvent[], about: OwnSpeedAbout): MeasuredEvent[] {
  const apart = apartOf(events, about)
  return events.map((event, i) =>
    apart[i] ? { ...event, flags: [...new Set([...event.flags, apart[i]!])] } : event,
  )
}

function apartOf(
  events: readonly MeasuredEvent[],
  { condition, engine, limits }: OwnSpeedAbout,
): (Apart | undefined)[] {
  const none = events.map(() => undefined)
  const crankingMostRpm = limit(limits, 'crankingMostRpm')
  if (condition === 'snap' || condition === 'cranking') return none
  const cycles = cycleSpeeds(events, engine)
    .flat()
    .toSorted((a, b) => a.atS - b.atS)
  const mostRpm = condition === 'idle' ? limit(limits, 'idleMostRpm') : Infinity
  const within = cycles.filter((c) => c.rpm > crankingMostRpm && c.rpm < mostRpm)
  // A record without the condition stays whole: that it is no idle at all is for a gate to say, not for every event.
  const isThere = within.length >= LEAST_SPEEDS
  const running = isThere ? within : cycles
  if (running.length < LEAST_SPEEDS) return none
  const own = bandOf(running, limit(limits, 'ownSpeedPct') / 100)
  const band = {
    lowRpm: Math.max(own.lowRpm, crankingMostRpm),
    highRpm: isThere ? Math.min(own.highRpm, mostRpm) : own.highRpm,
  }
  const times = events.map((e, i) => ({ i, atS: e.breakdownS })).toSorted((a, b) => a.atS - b.atS)
  const timesS = times.map((t) => t.atS)
  const stretches = stretchesOf({ timesS, speeds: speedsAt(cycles, timesS) }, { band, crankingMostRpm })
  const out: (Apart | undefined)[] = [...none]
  for (const stretch of stretches.filter((s) => !comesBack(s, stretches))) {
    const word = stretch.starting ? 'starting' : 'off_speed'
    for (let k = stretch.from; k < stretch.to; k++) out[times[k]!.i] = word
  }
  return out
}

interface Band {
  lowRpm: number
  highRpm: number
}

/** The band of the condition's speeds; never narrower to either side than the share of its middle. */
function bandOf(cycles: readonly CycleSpeed[], share: number): Band {
  const rising = cycles.toSorted((a, b) => a.rpm - b.rpm)
  const half = rising.reduce((sum, c) => sum + c.intervalS, 0) / 2
  let best: Band | undefined
  let to = 0
  let heldS = 0
  rising.forEach((c) => {
    while (to < rising.length && heldS < half) heldS += rising[to++]!.intervalS
    if (heldS < half) return
    const [lowRpm, highRpm] = [c.rpm, rising[to - 1]!.rpm]
    if (!best || highRpm - lowRpm < best.highRpm - best.lowRpm) best = { lowRpm, highRpm }
    heldS -= c.intervalS
  })
  const { lowRpm, highRpm } = best!
  const reach = Math.max(REACH * (highRpm - lowRpm), (share * (lowRpm + highRpm)) / 2)
  return { lowRpm: lowRpm - reach, highRpm: highRpm + reach }
}

/** The engine's speed at instants, between the middles of the cycles about them. */
function speedsAt(cycles: readonly CycleSpeed[], timesS: readonly number[]): number[] {
  let next = 0
  return timesS.map((t) => {
    while (next < cycles.length && cycles[next]!.atS < t) next++
    const [before, after] = [cycles[next - 1] ?? cycles[next]!, cycles[next] ?? cycles[next - 1]!]
    const share = after.atS > before.atS ? (t - before.atS) / (after.atS - before.atS) : 0
    return before.rpm + share * (after.rpm - before.rpm)
  })
}

/** A run of events outside the band; of a start, with the short visits to it in between. */
interface Stretch {
  from: number
  to: number
  lowRpm: number
  highRpm: number
  starting: boolean
}

function stretchesOf(
  { timesS, speeds }: { timesS: readonly number[]; speeds: readonly number[] },
  { band, crankingMostRpm }: { band: Band; crankingMostRpm: number },
): Stretch[] {
  const runs: Stretch[] = []
  speeds.forEach((rpm, i) => {
    if (rpm >= band.lowRpm && rpm <= band.highRpm) return
    const last = runs.at(-1)
    const own = { from: i, to: i + 1, lowRpm: rpm, highRpm: rpm, starting: rpm < crankingMostRpm }
    if (last?.to === i) runs[runs.length - 1] = joined(last, own)
    else runs.push(own)
  })
  const out: Stretch[] = []
  for (const run of runs) {
    const last = out.at(-1)
    const settled = last === undefined || timesS[run.from]! - timesS[last.to]! >= SETTLED_S
    if (!settled && (run.starting || last.starting)) out[out.length - 1] = joined(last, run)
    else out.push(run)
  }
  return out
}

const joined = (a: Stretch, b: Stretch): Stretch => ({
  from: a.from,
  to: b.to,
  lowRpm: Math.min(a.lowRpm, b.lowRpm),
  highRpm: Math.max(a.highRpm, b.highRpm),
  starting: a.starting || b.starting,
})

/** Whether excursions like this one are so frequent that they are the condition's own. */
function comesBack(stretch: Stretch, all: readonly Stretch[]): boolean {
  if (stretch.starting) return false
  const alike = (a: number, b: number): boolean => Math.abs(a / b - 1) < ALIKE_WITHIN
  return (
    all.filter((s) => alike(s.lowRpm, stretch.lowRpm) && alike(s.highRpm, stretch.highRpm)).length >=
    COMES_BACK
  )
}
