/**
 * Thins a line to what print can show: in each of `columns` equal stretches of x, the points of least and greatest y,
 * in their order. A line with few points comes back whole.
 *
 * @param x  rising, shape (n)
 * @param y  shape (n)
 */
export function thinLine(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  columns: number,
): { x: number[]; y: number[] } {
  const n = x.length
  if (n <= 2 * columns) return { x: Array.from(x), y: Array.from(y) }
  const kept: number[] = []
  const perX = columns / (x[n - 1]! - x[0]! || 1)
  let i = 0
  while (i < n) {
    const column = Math.floor((x[i]! - x[0]!) * perX)
    let least = i
    let greatest = i
    for (; i < n && Math.floor((x[i]! - x[0]!) * perX) === column; i++) {
      if (y[i]! < y[least]!) least = i
      if (y[i]! > y[greatest]!) greatest = i
    }
    kept.push(Math.min(least, greatest))
    if (least !== greatest) kept.push(Math.max(least, greatest))
  }
  return { x: kept.map((k) => x[k]!), y: kept.map((k) => y[k]!) }
}
