import { solveLinear } from './solve-linear.ts'

/**
 * Least-squares coefficients of a few given functions, by the normal equations. For a handful of well-scaled columns;
 * for powers of x use least-squares-polynomial.
 *
 * @param columns  each of length n: one function's values at the n points; not changed
 * @param y        length n; not changed
 * @returns        coefficients and the sum of squares left; undefined where the columns do not tell them apart
 */
export function linearFit(
  columns: readonly Float64Array[], y: ArrayLike<number>,
): { coefficients: Float64Array; squares: number } | undefined {
  const matrix = Float64Array.from(columns.flatMap((c) => columns.map((d) => dot(c, d))))
  const coefficients = solveLinear(matrix, Float64Array.from(columns, (c) => dot(c, y)))
  if (!coefficients?.every(Number.isFinite)) return undefined
  return { coefficients, squares: squaresLeft(columns, y, coefficients) }
}

function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!
  return sum
}

function squaresLeft(columns: readonly Float64Array[], y: ArrayLike<number>, coefficients: Float64Array): number {
  let sum = 0
  for (let i = 0; i < y.length; i++) {
    let left = y[i]!
    for (let k = 0; k < columns.length; k++) left -= coefficients[k]! * columns[k]![i]!
    sum += left * left
  }
  return sum
}
