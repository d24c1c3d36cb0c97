/** y = sum of coefficients[k] x^k; without intercept coefficients[0] is left out and k starts at 1. */
export interface Polynomial {
  coefficients: number[]
  standardDeviations: number[]
  /** Standard deviation of what is left, n - number of coefficients; undefined where nothing is left over. */
  residualSd: number | undefined
}

/**
 * Least-squares polynomial by Householder reflections on x brought to about -1..1, with one round of refinement,
 * which keeps ill-conditioned fits (degree 5) good to several digits.
 *
 * @param x, y     same length, at least as many as coefficients
 * @param options  degree >= 1; intercept true unless given
 * @returns        undefined where the points do not fix the polynomial
 */
export function leastSquaresPolynomial(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  options: { degree: number; intercept?: boolean },
): Polynomial | undefined {
  const intercept = options.intercept ?? true
  const terms = options.degree + (intercept ? 1 : 0)
  const n = x.length
  if (n < terms) return undefined
  const { centre, scale } = placing(x, intercept)
  const first = intercept ? 0 : 1
  const rows = Array.from({ length: n }, (_, i) => {
    const t = (x[i]! - centre) / scale
    return Array.from({ length: terms }, (_, k) => t ** (k + first))
  })
  const solver = householder(rows)
  if (!solver) return undefined
  const fit = solver.solve(Array.from(y))
  const refined = fit.map((c, k) => c + solver.solve(left(rows, y, fit))[k]!)
  const rest = left(rows, y, refined)
  const squares = rest.reduce((total, r) => total + r * r, 0)
  const residualSd = n > terms ? Math.sqrt(squares / (n - terms)) : undefined
  const back = backFromPlacing(terms, first, { centre, scale })
  const times = (v: readonly number[]): number[] => back.map((row) => dot(row, v))
  return {
    coefficients: times(refined),
    standardDeviations: back.map((row) => (residualSd ?? 0) * Math.hypot(...solver.solveTransposed(row))),
    residualSd,
  }
}

function placing(x: ArrayLike<number>, intercept: boolean): { centre: number; scale: number } {
  let low = Infinity,
    high = -Infinity
  for (let i = 0; i < x.length; i++) {
    low = Math.min(low, x[i]!)
    high = Math.max(high, x[i]!)
  }
  // A shift would bring an intercept in; without one only the scale may change.
  const centre = intercept ? (low + high) / 2 : 0
  return { centre, scale: Math.max(high - centre, centre - low) || 1 }
}

const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((total, v, k) => total + v * b[k]!, 0)

const left = (rows: readonly number[][], y: ArrayLike<number>, fit: readonly number[]): number[] =>
  rows.map((row, i) => y[i]! - dot(row, fit))

/** Matrix that turns coefficients in t = (x - centre) / scale into coefficients in x (binomial theorem). */
function backFromPlacing(
  terms: number,
  first: number,
  { centre, scale }: { centre: number; scale: number },
): number[][] {
  return Array.from({ length: terms }, (_, j) =>
    Array.from({ length: terms }, (_, k) => {
      const power = k + first
      const wanted = j + first
      if (wanted > power) return 0
      let ways = 1
      for (let i = 0; i < power - wanted; i++) ways = (ways * (power - i)) / (i + 1)
      return (ways * (-centre) ** (power - wanted)) / scale ** power
    }),
  )
}

/** Householder factorisation of a tall matrix, with the two solves the fit asks for. */
function householder(rows: readonly number[][]):
  | {
      solve: (y: readonly number[]) => number[]
      /** Solves R' z = v, whose length gives the standard deviation of v' coefficients. */
      solveTransposed: (v: readonly number[]) => number[]
    }
  | undefined {
  const a = rows.map((row) => [...row])
  const n = a.length
  const terms = a[0]!.length
  const mirrors: number[][] = []
  for (let k = 0; k < terms; k++) {
    const length = Math.hypot(...a.slice(k).map((row) => row[k]!))
    if (length < 1e-14) return undefined
    const mirror = a.map((row, i) => (i < k ? 0 : row[k]!))
    mirror[k]! += mirror[k]! < 0 ? -length : length
    mirrors.push(mirror)
    for (let j = k; j < terms; j++) {
      const column = reflect(
        mirror,
        a.map((row) => row[j]!),
      )
      for (let i = 0; i < n; i++) a[i]![j] = column[i]!
    }
  }
  return {
    solve: (y) => {
      const turned = mirrors.reduce((v, mirror) => reflect(mirror, v), [...y])
      const out = new Array<number>(terms).fill(0)
      for (let k = terms - 1; k >= 0; k--) {
        let value = turned[k]!
        for (let j = k + 1; j < terms; j++) value -= a[k]![j]! * out[j]!
        out[k] = value / a[k]![k]!
      }
      return out
    },
    solveTransposed: (v) => {
      const out = new Array<number>(terms).fill(0)
      for (let k = 0; k < terms; k++) {
        let value = v[k]!
        for (let j = 0; j < k; j++) value -= a[j]![k]! * out[j]!
        out[k] = value / a[k]![k]!
      }
      return out
    },
  }
}

/** v mirrored in the plane across `mirror`. */
function reflect(mirror: readonly number[], v: readonly number[]): number[] {
  const twice = (2 * dot(mirror, v)) / dot(mirror, mirror)
  return v.map((value, i) => value - twice * mirror[i]!)
}
