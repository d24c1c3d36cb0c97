/**
 * Solves a small square system A x = b by elimination with partial pivoting.
 *
 * @param a  shape (n * n), row by row; not changed
 * @param b  shape (n); not changed
 * @returns  x, shape (n); undefined where a pivot vanishes (the system has no single answer)
 * @throws   RangeError when the shapes do not belong together
 */
export function solveLinear(a: Float64Array, b: Float64Array): Float64Array | undefined {
  const n = b.length
  if (a.length !== n * n)
    throw new RangeError(`a system of ${n} needs ${n * n} coefficients, got ${a.length}`)
  const m = Float64Array.from(a)
  const x = Float64Array.from(b)
  for (let column = 0; column < n; column++) {
    const pivot = pivotRow(m, n, column)
    if (m[pivot * n + column] === 0) return undefined
    if (pivot !== column) swapRows(m, x, { n, one: pivot, other: column })
    for (let row = column + 1; row < n; row++) {
      const factor = m[row * n + column]! / m[column * n + column]!
      if (factor === 0) continue
      for (let k = column; k < n; k++) m[row * n + k]! -= factor * m[column * n + k]!
      x[row]! -= factor * x[column]!
    }
  }
  for (let row = n - 1; row >= 0; row--) {
    let rest = x[row]!
    for (let k = row + 1; k < n; k++) rest -= m[row * n + k]! * x[k]!
    x[row] = rest / m[row * n + row]!
  }
  return x
}

function pivotRow(m: Float64Array, n: number, column: number): number {
  let best = column
  for (let row = column + 1; row < n; row++) {
    if (Math.abs(m[row * n + column]!) > Math.abs(m[best * n + column]!)) best = row
  }
  return best
}

function swapRows(m: Float64Array, x: Float64Array, at: { n: number; one: number; other: number }): void {
  const { n, one, other } = at
  for (let k = 0; k < n; k++) {
    const kept = m[one * n + k]!
    m[one * n + k] = m[other * n + k]!
    m[other * n + k] = kept
  }
  const kept = x[one]!
  x[one] = x[other]!
  x[other] = kept
}
