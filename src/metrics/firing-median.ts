import { K95, K95_ONE_SIDED } from '../maths/normal.ts'
import { median } from '../maths/median.ts'
import { medianIntervalRanks } from '../maths/median-interval.ts'
import { absent } from '../units/measured.ts'
import type { EventFigure, MeasuredEvent, Summary } from './figures.ts'
import { instrumentU, type Instrument } from './instrument.ts'

/**
 * Above this share of a cylinder's events whose climb holds too few samples, tops fall between samples as a rule: what is
 * known of any of them is its highest sample.
 */
const MANY_MISSED = 0.2
/** One event's firing voltage as far as it is known: from `low` to `high`. */
interface Known {
  low: number
  high: number
}

/**
 * Median firing voltage of a cylinder. A top that the recorder cut off or missed is known from below only: it counts as
 * censored, not as absent, since those are the highest. Where they are so many that the median's upper end is not
 * known, there is no interval but a bound: at least so much.
 *
 * @param plain    the summary of those known from both sides
 * @param beyond  what neighbours that are alike add to either half of the random part, in squares (see `longRuns`)
 * @returns absent with `atLeast`, which holds at 95 %, where the upper end is not known
 * @source  order statistics of censored values: Conover 1999, Practical Nonparametric Statistics, sec. 3.2
 */
export function summariseFiring(
  events: readonly MeasuredEvent[],
  { plain, instrument, beyond }: { plain: Summary<'kV'>; instrument: Instrument; beyond: number },
): Summary<'kV'> {
  const figures = events.map((e) => e.figures.firingKv)
  const slow = events.filter((e) => e.flags.includes('under_sampled')).length > MANY_MISSED * events.length
  const known = events.flatMap((e) => knownOf(e, slow))
  const open = known.filter(({ high }) => high === Infinity).length
  if (open === 0) return withReach(plain, events)
  const ranks = medianIntervalRanks(known.length)
  const highs = known.map(({ high }) => high).toSorted((a, b) => a - b)
  const high = ranks && highs[ranks.high - 1]!
  if (!plain.ok || high === undefined || high === Infinity)
    return atLeast(known, { figures, slow, instrument })
  const lows = known.map(({ low }) => low).toSorted((a, b) => a - b)
  // A top cut off is among the highest; one missed between samples may be any: it counts in the ends alone.
  const value = middleOf(
    events
      .filter(({ figures: { firingKv } }) => firingKv.ok || firingKv.why === 'clipped')
      .flatMap((e) => knownOf(e, slow).map((k) => k.high))
      .toSorted((a, b) => a - b),
  )
  const shared =
    K95 * Math.hypot(...plain.budget.filter(({ source }) => SHARED.has(source)).map(({ u }) => u))
  const low = Math.min(value, lows[ranks!.low - 1]!)
  const droop = plain.budget.find(({ source }) => source === 'pickup')?.sides ?? { down: 0, up: 0 }
  return withReach(
    {
      ...plain,
      value,
      low: value - Math.hypot(value - low, beyond, shared, droop.down),
      high: value + Math.hypot(Math.max(high, value) - value, beyond, shared, droop.up),
    },
    events,
  )
}

/** A value beyond the highest samples by more than this share of it, or beyond every one of them, is extrapolated. */
const MOST_BEYOND = 0.05

/** The summary, marked where its value lies beyond what the samples show. */
function withReach(summary: Summary<'kV'>, events: readonly MeasuredEvent[]): Summary<'kV'> {
  if (!summary.ok) return summary
  const tops = events.flatMap(({ figures, topKv }) =>
    figures.firingKv.ok && topKv !== undefined ? [topKv] : [],
  )
  const middle = median(tops)
  if (middle === undefined) return summary
  const beyond = summary.value > Math.max(...tops) || summary.value - middle > MOST_BEYOND * summary.value
  return beyond ? { ...summary, extrapolatedFrom: middle } : summary
}

/** Sources all events of a capture share. */
const SHARED: ReadonlySet<string> = new Set(['instrument', 'method', 'zero'])

function knownOf({ figures: { firingKv }, topKv, flags }: MeasuredEvent, slow: boolean): Known[] {
  const missed = !firingKv.ok && (firingKv.why === 'clipped' || firingKv.why === 'under-sampled')
  if ((missed || (slow && firingKv.ok)) && topKv !== undefined && !flags.includes('partial'))
    return [{ low: topKv, high: Infinity }]
  return firingKv.ok ? [{ low: firingKv.value, high: firingKv.value }] : []
}

const middleOf = (rising: readonly number[]): number =>
  (rising[(rising.length - 1) >> 1]! + rising[rising.length >> 1]!) / 2

/** The bound, or plain absence where even that needs more events. */
function atLeast(
  known: readonly Known[],
  {
    figures,
    slow,
    instrument,
  }: { figures: readonly EventFigure<'kV'>[]; slow: boolean; instrument: Instrument },
): Summary<'kV'> {
  const clipped = figures.filter((f) => !f.ok && f.why === 'clipped').length
  const why =
    !slow && 2 * clipped >= known.length
      ? 'clipped'
      : slow
        ? 'under-sampled'
        : clipped > 0
          ? 'clipped'
          : 'under-sampled'
  const ranks = medianIntervalRanks(known.length, 0.9)
  if (!ranks) return absent('too-few-events')
  const low = known.map((k) => k.low).toSorted((a, b) => a - b)[ranks.low - 1]!
  return { ...absent(why), atLeast: low - K95_ONE_SIDED * instrumentU(low, 'kV', instrument) }
}
