import { median } from '../maths/median.ts'
import { endCosts, LARGEST_LEAD, lead, LEAD_STEP, type EndCosts, type EndSamples } from './end-costs.ts'
import type { RingModel } from './ring-model.ts'

/** Ends of one coil's events lie together: standard deviation in cycles. Without it noise picks the ring's own peak. */
const SPREAD_CYCLES = 0.01
/**
 * Where noise hides every end, the lead is taken as 0.06 cycle, give or take half of that: a glow goes out at a small
 * current, never at none. One weak vote beside those of the events (project judgement).
 */
const WEAK_LEAD = 0.06 * 2 * Math.PI
const WEAK_SPREAD = 0.03 * 2 * Math.PI
/** No event has more say than this in the common lead; so many events, evenly over the record, settle it. */
const MOST_VOTE = 20
const MOST_VOTES = 120
/** Heights that leave a gap of this ratio between them are of two families. */
const APART = 1.25

/**
 * Ends of the sparks of one channel: the instant at which the voltage leaves the spark line with a kink. When the arc
 * goes out the current left in the coil charges the secondary's capacity: the voltage climbs at once, turns over and
 * falls. No shape of that hook is taken for granted but that it is smooth, since cable and gap capacities leave and
 * join the ring; the arc goes out at the same current in every event of a coil, which the events settle together.
 *
 * @returns one per event: fractional sample, or undefined where no flank can be read
 */
export function sparkEnds(events: readonly EndSamples[], { omega }: RingModel): (number | undefined)[] {
  const costs = events.map((event) => endCosts(event, omega))
  const ends = new Array<number | undefined>(events.length).fill(undefined)
  for (const family of likeEnds(costs)) {
    const overshootKv = commonOvershoot(
      family.map((i) => costs[i]!),
      omega,
    )
    for (const i of family) ends[i] = endOf(costs[i]!, { omega, overshootKv }) / events[i]!.sampleS
  }
  // A flank that cannot be read in detail: the end lies as far before it as those of the other events do.
  const before = median(ends.flatMap((end, i) => (end === undefined ? [] : [events[i]!.flank - end])))
  return ends.map(
    (end, i) => end ?? (before === undefined ? undefined : Math.max(0, events[i]!.flank - before)),
  )
}

/**
 * Indices of events that end alike: lines of about one height with hooks of about one height over them. Those of a firing
 * and of a wasted gap part, and so do those of a lean cylinder and of a level one.
 */
function likeEnds(costs: readonly (EndCosts | undefined)[]): number[][] {
  const known = costs.flatMap((c, i) => (c ? [i] : []))
  const byLine = partedBy(known, (i) => costs[i]!.lineKv)
  return byLine.flatMap((family) => partedBy(family, (i) => costs[i]!.topKv / costs[i]!.lineKv))
}

/** Parts indices where their values, in rising order, leave a gap. */
function partedBy(indices: readonly number[], value: (i: number) => number): number[][] {
  const families: number[][] = []
  for (const i of indices.toSorted((a, b) => value(a) - value(b))) {
    const family = families.at(-1)
    if (family && value(i) < APART * value(family.at(-1)!)) family.push(i)
    else families.push([i])
  }
  return families
}

/** End of an event's spark, s: about where its family has it, by its own samples. */
function endOf(cost: EndCosts, common: { omega: number; overshootKv: number }): number {
  const expectedS = lead(cost, common)
  const spreadS = (SPREAD_CYCLES * 2 * Math.PI) / common.omega
  return cost.halfwayS - cheapest(cost, (s) => ((s - expectedS) / spreadS) ** 2 / 2)
}

/** The overshoot that the channel's events agree on. */
function commonOvershoot(costs: readonly EndCosts[], omega: number): number {
  const typicalKv = median(costs.map((c) => c.lineKv))!
  const voters = costs.filter((_, i) => i % Math.ceil(costs.length / MOST_VOTES) === 0)
  let best = 0
  let least = Infinity
  for (let angle = 0; angle <= LARGEST_LEAD; angle += LEAD_STEP) {
    const overshootKv = typicalKv * Math.tan(angle)
    let sum = ((angle - WEAK_LEAD) / WEAK_SPREAD) ** 2 / 2
    for (const voter of voters) sum += Math.min(costAt(voter, lead(voter, { omega, overshootKv })), MOST_VOTE)
    if (sum < least) {
      least = sum
      best = overshootKv
    }
  }
  return best
}

function costAt({ costs, fromS, stepS }: EndCosts, leadS: number): number {
  return costs[Math.min(Math.max(Math.round((leadS - fromS) / stepS), 0), costs.length - 1)]!
}

function cheapest({ costs, fromS, stepS }: EndCosts, extra: (leadS: number) => number): number {
  let best = 0
  let least = Infinity
  costs.forEach((cost, i) => {
    const sum = cost + extra(fromS + i * stepS)
    if (sum < least) {
      least = sum
      best = i
    }
  })
  return fromS + best * stepS
}
