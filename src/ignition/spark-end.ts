import { median } from '../maths/median.ts'
import { ringFitter, type RingFit, type RingModel } from './ring-model.ts'

/** What is needed to place one spark's end. Times in s on the samples' own clock (sample 0 = 0). */
export interface EndSamples {
  /** Upright kV, from within the spark line to the ring-down's second cycle. */
  kv: Float64Array
  sampleS: number
  /** Sample on the falling flank after the first ring peak, where the line is left for good. */
  flank: number
}

/** Cost of each possible lead of the arc's end over the ring's first peak, in units of -log likelihood. */
interface EndCosts { ringPeakS: number; costs: Float64Array; stepS: number }

/** The phase of one event's ring is taken over this many cycles: the decay is not the same for long. */
const CYCLES_FOR_PHASE = 1
/** The end precedes the ring's first peak by a quarter cycle at most: current left in the coil lifts the voltage first. */
const LONGEST_LEAD_CYCLES = 0.24
const LEAD_STEPS = 120
/** Piece of spark line before the earliest end that the straight line is laid through. */
const LINE_BEFORE_S = 0.1e-3
/** Leads of one coil's events lie together: standard deviation in cycles. Without it noise picks the ring's own peak. */
const LEAD_SPREAD_CYCLES = 0.015
/**
 * Where noise hides every end, the lead is taken as 0.06 cycle, give or take half of that: a glow goes out at a small
 * current, never at none. One weak vote beside those of the events (project judgement).
 */
const WEAK_LEAD_CYCLES = 0.06
const WEAK_SPREAD_CYCLES = 0.03
/** No event has more say than this in the common lead. */
const MOST_VOTE = 20

/**
 * Ends of the sparks of one channel: the instant the straight end of the spark line gives way to the coil's own ring.
 * The ring is fitted after its first peak, where the arc is surely out, and drawn back; the end is the change from line
 * to ring that leaves the least squares, the lead over the ring's peak being shared by the channel's events.
 *
 * @returns one per event: fractional sample, or undefined where no ring can be fitted
 */
export function sparkEnds(events: readonly EndSamples[], model: RingModel): (number | undefined)[] {
  const cycleS = (2 * Math.PI) / model.omega
  const fitter = ringFitter(model, { sampleS: events[0]?.sampleS ?? 1, cycles: CYCLES_FOR_PHASE })
  const costs = events.map((event) => endCosts(event, { fit: fitter(event.kv.subarray(event.flank)), cycleS }))
  const common = commonLead(costs.flatMap((c) => (c ? [c] : [])), cycleS)
  return events.map((event, i) => {
    const cost = costs[i]
    if (!cost) return undefined
    const leadS = leastLead(cost, (lead) => ((lead - common) / (LEAD_SPREAD_CYCLES * cycleS)) ** 2 / 2)
    return (cost.ringPeakS - leadS) / event.sampleS
  })
}

function commonLead(costs: readonly EndCosts[], cycleS: number): number {
  const first = costs[0]
  if (!first) return WEAK_LEAD_CYCLES * cycleS
  const total = new Float64Array(first.costs.length)
  for (let i = 0; i < total.length; i++) {
    total[i] = (((i * first.stepS) / cycleS - WEAK_LEAD_CYCLES) / WEAK_SPREAD_CYCLES) ** 2 / 2
    for (const { costs: c } of costs) total[i]! += Math.min(c[i]!, MOST_VOTE)
  }
  return leastLead({ ...first, costs: total }, () => 0)
}

function leastLead({ costs, stepS }: EndCosts, extra: (leadS: number) => number): number {
  let best = 0
  let least = Infinity
  costs.forEach((cost, i) => {
    const sum = cost + extra(i * stepS)
    if (sum < least) {
      least = sum
      best = i
    }
  })
  return best * stepS
}

/** Squares left by line-then-ring for every lead, over the noise they show. */
function endCosts(
  { kv, sampleS, flank }: EndSamples, { fit, cycleS }: { fit: RingFit | undefined; cycleS: number },
): EndCosts | undefined {
  if (!fit) return undefined
  const peakS = ringPeak(fit.slopeAt, cycleS)
  if (peakS === undefined) return undefined
  const stepS = (LONGEST_LEAD_CYCLES * cycleS) / LEAD_STEPS
  const from = Math.max(0, Math.floor(flank + (peakS - LONGEST_LEAD_CYCLES * cycleS - LINE_BEFORE_S) / sampleS))
  const to = Math.min(kv.length, flank + Math.ceil(peakS / sampleS))
  const squares = changeSquares(kv.subarray(from, to), (i) => fit.at((from + i - flank) * sampleS))
  const costs = new Float64Array(LEAD_STEPS + 1)
  for (let s = 0; s <= LEAD_STEPS; s++) {
    const change = Math.ceil(flank + (peakS - s * stepS) / sampleS) - from
    costs[s] = squares[Math.min(Math.max(change, 3), squares.length - 1)]!
  }
  const least = costs.reduce((a, b) => Math.min(a, b), Infinity)
  const variance = Math.max(least / Math.max(1, to - from - 3), 1e-8)
  return { ringPeakS: flank * sampleS + peakS, stepS, costs: costs.map((c) => (c - least) / (2 * variance)) }
}

/** Last top of the fitted ring before its first sample, within a half cycle, s (negative). */
function ringPeak(slopeAt: (s: number) => number, cycleS: number): number | undefined {
  const stepS = cycleS / 400
  for (let t = 0; t > -0.5 * cycleS; t -= stepS) {
    const here = slopeAt(t)
    const before = slopeAt(t - stepS)
    if (here <= 0 && before > 0) return t - stepS * (here / (here - before))
  }
  return undefined
}

/**
 * For every split i: squares left by a straight line through samples 0 .. i-1 plus those of the ring at i .. n-1.
 * Shape (n + 1).
 */
function changeSquares(kv: Float64Array, ring: (i: number) => number): Float64Array {
  const n = kv.length
  const after = new Float64Array(n + 1)
  for (let i = n - 1; i >= 0; i--) after[i] = after[i + 1]! + (kv[i]! - ring(i)) ** 2
  const total = new Float64Array(n + 1)
  const middle = median(kv) ?? 0
  let sy = 0, sxy = 0, syy = 0
  for (let i = 0; i <= n; i++) {
    const sx = (i * (i - 1)) / 2
    const sxx = ((i - 1) * i * (2 * i - 1)) / 6
    const vx = sxx - (i > 0 ? (sx * sx) / i : 0)
    const cov = i > 0 ? sxy - (sx * sy) / i : 0
    const line = i > 2 ? Math.max(0, syy - (sy * sy) / i - (cov * cov) / vx) : 0
    total[i] = line + after[i]!
    if (i < n) {
      const y = kv[i]! - middle
      sy += y
      sxy += i * y
      syy += y * y
    }
  }
  return total
}
