/**
 * Where a rising function reaches a value: the bracket is widened until it holds the value, then halved until two
 * neighbouring floating-point numbers are left.
 *
 * @param rising  a function that never falls
 * @param target  value to reach; must lie within the function's range
 * @param from    first bracket, low < high
 */
export function invertRising(
  rising: (x: number) => number,
  target: number,
  from: { low: number; high: number },
): number {
  let { low, high } = from
  while (rising(low) > target) low -= 2 * (high - low)
  while (rising(high) < target) high += 2 * (high - low)
  for (;;) {
    const middle = low + (high - low) / 2
    if (middle <= low || middle >= high) return high
    if (rising(middle) < target) low = middle
    else high = middle
  }
}
