import { solveLinear } from './solve-linear.ts'

/** Coefficients of the given functions and the sum of squares they leave. */
export interface LinearFit {
  coefficients: Float64Array
  squares: number
}

/**
 * Prepares least squares of a few given functions, to be laid through many sets of values at the same points: the
 * normal equations are inverted once. For a handful of well-scaled columns, not for powers of x.
 *
 * @param columns  each of length n: one function's values at the n points; not changed
 * @returns        a fit for y of length n; undefined where the columns do not tell their coefficients apart
 */
export function prepareLinearFit(
  columns: readonly Float64Array[],
): ((y: Float64Array) => LinearFit) | undefined {
  const m = columns.length
  const matrix = Float64Array.from(columns.flatMap((c) => columns.map((d) => dot(c, d))))
  const inverse: Float64Array[] = []
  for (let i = 0; i < m; i++) {
    const row = solveLinear(
      matrix,
      Float64Array.from({ length: m }, (_, k) => (k === i ? 1 : 0)),
    )
    if (!row?.every(Number.isFinite)) return undefined
    inverse.push(row)
  }
  return (y) => {
    const right = Float64Array.from(columns, (c) => dot(c, y))
    const coefficients = Float64Array.from(inverse, (row) => dot(row, right))
    return { coefficients, squares: Math.max(0, dot(y, y) - dot(coefficients, right)) }
  }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!
  return sum
}
