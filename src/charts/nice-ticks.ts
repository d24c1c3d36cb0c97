/** An axis: its ends and the values it marks, evenly stepped, in the data's unit. */
export interface Axis {
  low: number
  high: number
  ticks: readonly number[]
  decimals: number
}

/** Steps of 1, 2 or 5 times a power of ten: at most `most` of them over `span`. */
function niceStep(span: number, most: number): number {
  const raw = span / most
  const power = 10 ** Math.floor(Math.log10(raw))
  const factor = [1, 2, 5, 10].find((f) => f * power >= raw * (1 - 1e-9)) ?? 10
  return factor * power
}

/**
 * An axis that holds `low` to `high`.
 * @param most   most steps between ticks
 * @param snug   true: ends at the data's own ends, ticks inside; false: ends at ticks
 */
export function niceAxis(low: number, high: number, how: { most: number; snug?: boolean }): Axis {
  const span = high > low ? high - low : Math.max(Math.abs(high), 1)
  const step = niceStep(span, how.most)
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9))
  const first = how.snug ? Math.ceil(low / step - 1e-9) : Math.floor(low / step + 1e-9)
  const last = how.snug ? Math.floor((low + span) / step + 1e-9) : Math.ceil((low + span) / step - 1e-9)
  const ticks = Array.from({ length: last - first + 1 }, (_, i) =>
    Number(((first + i) * step).toFixed(decimals)),
  )
  return how.snug
    ? { low, high: low + span, ticks, decimals }
    : { low: ticks[0]!, high: ticks.at(-1)!, ticks, decimals }
}
