import type { Channel } from '../capture/capture.ts'
import { median } from '../maths/median.ts'

/** Dwell is looked for this far back: long enough for a slow cranking coil. */
const LONGEST_DWELL_S = 30e-3
/** Switch-off lies this close to the breakdown: the voltage climbs within tens of microseconds. */
const SWITCH_OFF_S = 0.3e-3
/**
 * Below this share of the supply the switch is closed. A driver that limits the current lets its voltage rise, to about
 * three quarters of the supply; an open switch shows the whole of it.
 */
const CLOSED_SHARE = 0.85
/** A shorter look above that level is noise, not an open switch. */
const LEAST_OPEN_S = 60e-6
/** Shares of the last current between which its foot is drawn back: below, noise counts; above, the climb bends. */
const FOOT_SHARES = { low: 0.1, high: 0.3 } as const

/** A channel of the primary side, on the same clock as the secondary. */
export interface Primary {
  data: ArrayLike<number>
  carries: 'primary-voltage' | 'primary-current'
  sampleS: number
}

/** The primary channel that shows this cylinder's coil, if one was recorded; current before voltage, being the plainer. */
export function primaryOf(
  channels: readonly Channel[],
  cylinder: number | undefined,
  sampleS: number,
): Primary | undefined {
  const sees = ({ entry }: Channel): boolean => {
    const { cylinders } = entry
    return (
      cylinders === undefined ||
      cylinders === 'all' ||
      cylinders === cylinder ||
      (Array.isArray(cylinders) && cylinder !== undefined && cylinders.includes(cylinder))
    )
  }
  for (const carries of ['primary-current', 'primary-voltage'] as const) {
    const channel = channels.find((c) => c.entry.carries === carries && sees(c))
    if (channel) return { data: channel.data, carries, sampleS }
  }
  return undefined
}

/**
 * Dwell start from the primary side: where the current before a breakdown began to climb, or where the switch closed.
 *
 * @param breakdown  fractional sample of the breakdown
 * @returns          fractional sample; undefined where the record does not reach back to it or shows none
 */
export function primaryDwellStart(primary: Primary, breakdown: number): number | undefined {
  return primary.carries === 'primary-current'
    ? currentFoot(primary, breakdown)
    : closingOf(primary, breakdown)
}

/** Foot of the current's climb: the line through two shares of its last value, drawn back to nothing. */
function currentFoot({ data, sampleS }: Primary, breakdown: number): number | undefined {
  const to = Math.min(data.length - 1, Math.floor(breakdown))
  const from = Math.max(0, to - Math.round(LONGEST_DWELL_S / sampleS))
  let last = to
  for (let i = Math.max(0, to - Math.round(SWITCH_OFF_S / sampleS)); i <= to; i++) {
    if (Math.abs(data[i]!) > Math.abs(data[last]!)) last = i
  }
  const most = data[last]!
  const high = lastBelow(data, { from, to: last }, most, FOOT_SHARES.high)
  const low =
    high === undefined ? undefined : lastBelow(data, { from, to: Math.floor(high) }, most, FOOT_SHARES.low)
  if (low === undefined || high === undefined) return undefined
  return low - ((high - low) * FOOT_SHARES.low) / (FOOT_SHARES.high - FOOT_SHARES.low)
}

/** Going back from `to`: where the signal, as a share of `most`, passes `share`; fractional sample. */
function lastBelow(
  data: ArrayLike<number>,
  { from, to }: { from: number; to: number },
  most: number,
  share: number,
): number | undefined {
  for (let i = to; i >= from; i--) {
    const here = data[i]! / most
    if (here >= share) continue
    const next = i + 1 <= to ? data[i + 1]! / most : share
    return next > here ? i + (share - here) / (next - here) : i
  }
  return undefined
}

/** Where the switch closed: going back from its opening, the first lasting look at the whole supply. */
function closingOf({ data, sampleS }: Primary, breakdown: number): number | undefined {
  const to = Math.min(data.length - 1, Math.floor(breakdown))
  const from = Math.max(0, to - Math.round(LONGEST_DWELL_S / sampleS))
  const supply = supplyOf(data, from, to)
  if (supply === undefined) return undefined
  const closed = (i: number): boolean => data[i]! < CLOSED_SHARE * supply
  let i = to
  while (i > to - SWITCH_OFF_S / sampleS && i >= from && !closed(i)) i--
  if (i < from || !closed(i)) return undefined
  const least = Math.max(2, Math.round(LEAST_OPEN_S / sampleS))
  for (let first = i; i >= from; i--) {
    if (closed(i)) first = i
    else if (first - i >= least) return first - 0.5
  }
  return undefined
}

/** The supply's voltage: the middle of the upper half of what stands before the switch-off, its flyback left out. */
function supplyOf(data: ArrayLike<number>, from: number, to: number): number | undefined {
  const stretch = Float64Array.from({ length: to - from }, (_, i) => data[from + i]!)
  const middle = median(stretch)
  if (middle === undefined) return undefined
  const upper = stretch.filter((v) => v >= middle)
  return median(upper)
}
