import { mad, MAD_TO_SD } from '../maths/mad.ts'
import { mannWhitney } from '../maths/mann-whitney.ts'
import { median } from '../maths/median.ts'
import { firingIndex } from './firing-index.ts'

/** What tells a firing event from a wasted one on the same lead. kV above rest. */
export interface SparkShape {
  timeS: number
  peakKv: number
  lineKv: number
  lateKv: number
  /** Whether a spark burned; left out where it did. Without one its heights tell no turn. */
  burns?: boolean
  /** Index of its frame; undefined where the record is one. */
  frame?: number | undefined
}

/** How sure the split must be: share of pairs (firing, wasted) in which the firing one is the higher. */
const LEAST_ORDERED_SHARE = 0.9
/** Fewest events of each turn. */
const LEAST_OF_EACH = 3
/** The top counts less than the line: between slow samples much of it may be lost. */
const TOP_WEIGHT = 0.5
/** A stretch of events that look the other way round: the count slipped there. */
const SLIP_RUN = 2

/**
 * Tells firing from wasted events on one plug's lead. They alternate, turn by turn; the firing one breaks down and burns
 * at the higher voltage, since its gas is compressed. Time gives the turn, so an event not found does not swap the rest.
 *
 * @returns one per event; all undefined where the two turns do not differ enough, those undefined about which turn and shape disagree
 */
export function splitWasted(events: readonly SparkShape[]): ('firing' | 'wasted' | undefined)[] {
  const unknown = events.map(() => undefined)
  if (events.some((e) => e.frame !== undefined)) return splitInFrames(events) ?? unknown
  if (events.length < 2) return unknown
  const { index } = firingIndex(events.map((e) => e.timeS))
  const lit = events.flatMap((e, i) => (e.burns === false ? [] : [i]))
  const scores = shapeScores(lit.map((i) => events[i]!))
  const kinds =
    scores &&
    byTurn(
      lit.map((i) => index[i]!),
      scores,
    )
  if (!kinds) return unknown
  return events.map((_, i) => {
    const at = lit.indexOf(i)
    return at >= 0 ? kinds[at] : turnBeside(i, { index, lit, kinds })
  })
}

/** The turn of an event without a spark, counted from the nearest one that burned. */
function turnBeside(
  i: number,
  { index, lit, kinds }: { index: readonly number[]; lit: readonly number[]; kinds: readonly Turn[] },
): Turn {
  const apart = (k: number) => Math.abs(index[lit[k]!]! - index[i]!)
  const near = lit.reduce<number | undefined>(
    (best, _, k) => (kinds[k] !== undefined && (best === undefined || apart(k) < apart(best)) ? k : best),
    undefined,
  )
  if (near === undefined) return undefined
  return apart(near) % 2 === 0 ? kinds[near] : kinds[near] === 'firing' ? 'wasted' : 'firing'
}

type Turn = 'firing' | 'wasted' | undefined

/** Heights part two kinds where their middles lie this many deviations of either kind apart: halves of one kind lie 2.3. */
const LEAST_APART = 4

/**
 * In frames the turn is not counted from one to the next: the shapes of a frame's events say which turn comes first, and
 * all shapes together have to fall into two kinds.
 */
function splitInFrames(events: readonly SparkShape[]): ('firing' | 'wasted' | undefined)[] | undefined {
  const scores = shapeScores(events)
  if (!scores) return undefined
  const kinds = events.map((): 'firing' | 'wasted' => 'firing')
  for (const frame of new Set(events.map((e) => e.frame))) {
    const own = events.flatMap((e, i) => (e.frame === frame ? [i] : []))
    const { index } = firingIndex(own.map((i) => events[i]!.timeS))
    const lean = own.reduce((sum, i, k) => sum + (index[k]! % 2 === 0 ? 1 : -1) * scores[i]!, 0)
    own.forEach((i, k) => {
      kinds[i] = (index[k]! % 2 === 0) === lean > 0 ? 'firing' : 'wasted'
    })
  }
  const of = (kind: 'firing' | 'wasted'): number[] => scores.filter((_, i) => kinds[i] === kind)
  const [firing, wasted] = [of('firing'), of('wasted')]
  if (Math.min(firing.length, wasted.length) < LEAST_OF_EACH) return undefined
  const spread = MAD_TO_SD * Math.max(mad(firing)!, mad(wasted)!)
  return median(firing)! - median(wasted)! > LEAST_APART * spread ? kinds : undefined
}

/** Kind of every event from its own shape alone: positive leans to firing. Undefined where shapes do not part. */
function shapeScores(events: readonly SparkShape[]): number[] | undefined {
  const parts = [(e: SparkShape) => e.peakKv, (e: SparkShape) => e.lineKv, (e: SparkShape) => e.lateKv]
  const centred = parts.map((part) => {
    const logs = events.map((e) => Math.log(Math.max(part(e), 1e-3)))
    const middle = (quantileMean(logs, 'low') + quantileMean(logs, 'high')) / 2
    return logs.map((v) => v - middle)
  })
  return events.length < 2 * LEAST_OF_EACH
    ? undefined
    : events.map((_, i) => TOP_WEIGHT * centred[0]![i]! + centred[1]![i]! + centred[2]![i]!)
}

/** Median of the lower or upper half. */
function quantileMean(values: readonly number[], half: 'low' | 'high'): number {
  const rising = values.toSorted((a, b) => a - b)
  const cut = Math.floor(rising.length / 2)
  return median(half === 'low' ? rising.slice(0, Math.max(1, cut)) : rising.slice(cut)) ?? 0
}

/** Turns by parity of the count, followed through slips; checked by ranks over all events. */
function byTurn(
  index: readonly number[],
  scores: readonly number[],
): ('firing' | 'wasted' | undefined)[] | undefined {
  const even = scores.filter((_, i) => index[i]! % 2 === 0)
  const uneven = scores.filter((_, i) => index[i]! % 2 !== 0)
  if (even.length < LEAST_OF_EACH || uneven.length < LEAST_OF_EACH) return undefined
  const shift = parityAlong(index, scores, (median(even) ?? 0) > (median(uneven) ?? 0) ? 0 : 1)
  const kinds = index.map((n, i) => ((n + shift[i]!) % 2 === 0 ? ('firing' as const) : ('wasted' as const)))
  const firing = scores.filter((_, i) => kinds[i] === 'firing')
  const wasted = scores.filter((_, i) => kinds[i] === 'wasted')
  const ranks = mannWhitney(firing, wasted, { method: 'normal' })
  if (!ranks || ranks.u < LEAST_ORDERED_SHARE * firing.length * wasted.length) return undefined
  // One event that looks the other way round among others that do not is an odd spark; two are a turn lost in the record.
  const odd = kinds.map((kind, i) => scores[i]! > 0 !== (kind === 'firing'))
  return kinds.map((kind, i) =>
    odd[i] && (odd[i - 1] || odd[i + 1] || i === 0 || i === kinds.length - 1) ? undefined : kind,
  )
}

/** Parity of the firing turn at every event: changes where several events in a row look the other way round. */
function parityAlong(index: readonly number[], scores: readonly number[], start: 0 | 1): number[] {
  const looksFiring = scores.map((s) => s > 0)
  const agrees = (i: number, parity: number): boolean => ((index[i]! + parity) % 2 === 0) === looksFiring[i]
  let parity: number = start
  return index.map((_, i) => {
    const next = Array.from({ length: SLIP_RUN + 1 }, (_, k) => i + k).filter((k) => k < index.length)
    if (next.length > SLIP_RUN && next.every((k) => !agrees(k, parity))) parity = 1 - parity
    return parity
  })
}
