/** Hits of a total in one group. */
export interface Share {
  hits: number
  total: number
}

/**
 * Fisher's exact test of two shares: chance, where both groups share one rate, of a table no likelier than this one.
 *
 * @throws RangeError unless 0 <= hits <= total in both
 * @source Fisher 1935, The Design of Experiments, ch. 2; two-sided by the sum of the tables no likelier
 */
export function fisherExact(first: Share, second: Share): number {
  for (const { hits, total } of [first, second])
    if (!(hits >= 0 && hits <= total)) throw new RangeError(`no share in ${hits} of ${total}`)
  const hits = first.hits + second.hits
  const from = Math.max(0, hits - second.total)
  const to = Math.min(hits, first.total)
  const logs = Array.from(
    { length: to - from + 1 },
    (_, i) =>
      logChoose(first.total, from + i) +
      logChoose(second.total, hits - from - i) -
      logChoose(first.total + second.total, hits),
  )
  const own = logs[first.hits - from]!
  return Math.min(
    1,
    logs.filter((log) => log <= own + 1e-9).reduce((sum, log) => sum + Math.exp(log), 0),
  )
}

function logChoose(n: number, k: number): number {
  let log = 0
  for (let i = 1; i <= k; i++) log += Math.log((n - k + i) / i)
  return log
}
