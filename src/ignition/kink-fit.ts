import { solveLinear } from '../maths/solve-linear.ts'

/** Highest power before the kink, and after it. */
const BEFORE = 2
const AFTER = 3
const TERMS = 1 + BEFORE + AFTER
/** Fewest samples either side of the kink: one more than its curve has terms of its own. */
const LEAST_BESIDE = 4
/** The recorder's own noise counts as so many samples more of each side: a few samples may fit by chance. */
const NOISE_SAMPLES = 6
/** Nearer to 1 than this, neighbouring residuals say nothing more about how many of them are independent. */
const MOST_CORRELATION = 0.9

/**
 * How unlikely each place of a kink is: of a parabola up to it and, from it on, with the same value, a cubic of its own.
 * Either side scatters by an amount of its own (turbulence ends with the arc), and where neighbours go together, as they
 * do in turbulence, samples count for less.
 *
 * @param kv       shape (n)
 * @param kinks    places, in fractional samples of kv
 * @param noiseKv  the recorder's
 * @returns        -log likelihood above the likeliest place's, shape (kinks); all 0 where the samples settle none
 */
export function kinkCosts(kv: Float64Array, kinks: readonly number[], noiseKv: number): Float64Array {
  const mean = kv.reduce((a, b) => a + b, 0) / kv.length
  const y = kv.map((v) => v - mean)
  const sums = runningSums(y)
  const fits = kinks.map((kink) => fitKink(sums, kink))
  const costs = Float64Array.from(fits, (fit) => (fit ? scatterCost(fit, noiseKv ** 2) : Infinity))
  const best = costs.indexOf(costs.reduce((a, b) => Math.min(a, b), Infinity))
  const fit = fits[best]
  if (!fit) return costs.fill(0)
  const weight = independentShare(y, fit)
  const least = costs[best]!
  return costs.map((c) => (c - least) * weight)
}

/** Of the first m samples, for every m: sums of x^k, of x^k y and of y^2, with x from 0 to 2 over them all. Shapes (n + 1). */
interface RunningSums {
  n: number
  x: Float64Array[]
  xy: Float64Array[]
  yy: Float64Array
}

function runningSums(y: Float64Array): RunningSums {
  const n = y.length
  const of = (value: (i: number) => number): Float64Array => {
    const sums = new Float64Array(n + 1)
    for (let i = 0; i < n; i++) sums[i + 1] = sums[i]! + value(i)
    return sums
  }
  return {
    n,
    yy: of((i) => y[i]! ** 2),
    x: Array.from({ length: 2 * AFTER + 1 }, (_, k) => of((i) => ((2 * i) / n) ** k)),
    xy: Array.from({ length: AFTER + 1 }, (_, k) => of((i) => ((2 * i) / n) ** k * y[i]!)),
  }
}

/** Samples of one side: how many, sums of u^k and u^k y with u = 0 at the kink, and of y^2. */
interface Side {
  count: number
  u: number[]
  uy: number[]
  yy: number
}

function sideOf(sums: RunningSums, { from, to, kink }: { from: number; to: number; kink: number }): Side {
  const shift = (-2 * kink) / sums.n
  const between = (running: Float64Array): number => running[to]! - running[from]!
  return {
    count: to - from,
    yy: between(sums.yy),
    u: shifted(sums.x.map(between), shift),
    uy: shifted(sums.xy.map(between), shift),
  }
}

/** Sums of (x + shift)^k from those of x^k, by the binomial theorem. */
function shifted(sums: readonly number[], shift: number): number[] {
  const out = [...sums]
  for (let round = 1; round < out.length; round++) {
    for (let k = out.length - 1; k >= round; k--) out[k] = out[k]! + shift * out[k - 1]!
  }
  return out
}

interface KinkFit {
  kink: number
  before: number[]
  after: number[]
  squares: readonly { count: number; squares: number }[]
}

/** The best curve with its kink there; undefined where the samples do not settle it. */
function fitKink(sums: RunningSums, kink: number): KinkFit | undefined {
  if (kink < LEAST_BESIDE || sums.n - kink < LEAST_BESIDE) return undefined
  const at = Math.ceil(kink)
  const pre = sideOf(sums, { from: 0, to: at, kink })
  const post = sideOf(sums, { from: at, to: sums.n, kink })
  const normal = new Float64Array(TERMS * TERMS)
  const right = new Float64Array(TERMS)
  addSide(normal, right, pre, BEFORE_AT)
  addSide(normal, right, post, AFTER_AT)
  const c = solveLinear(normal, right)
  if (!c) return undefined
  const before = [c[0]!, c[1]!, c[2]!]
  const after = [c[0]!, c[3]!, c[4]!, c[5]!]
  return {
    kink,
    before,
    after,
    squares: [
      [pre, before],
      [post, after],
    ].map(([side, curve]) => ({
      count: (side as Side).count,
      squares: squaresLeft(side as Side, curve as number[]),
    })),
  }
}

/** Where the powers of each side stand among the unknowns; they share the value at the kink. */
const [BEFORE_AT, AFTER_AT] = [
  [0, 1, 2],
  [0, 3, 4, 5],
]

function addSide(normal: Float64Array, right: Float64Array, { u, uy }: Side, at: readonly number[]): void {
  for (let k = 0; k < at.length; k++) {
    right[at[k]!]! += uy[k]!
    for (let l = 0; l < at.length; l++) normal[at[k]! * TERMS + at[l]!]! += u[k + l]!
  }
}

function squaresLeft({ u, uy, yy }: Side, curve: readonly number[]): number {
  let left = yy
  for (let k = 0; k < curve.length; k++) {
    const a = curve[k]!
    left -= 2 * a * uy[k]!
    for (let l = 0; l < curve.length; l++) left += a * curve[l]! * u[k + l]!
  }
  return Math.max(0, left)
}

/** -log likelihood of residuals that scatter normally, by one amount before the kink and by another after it. */
function scatterCost({ squares: sides }: KinkFit, noiseVariance: number): number {
  return sides.reduce((cost, { count, squares }) => {
    const variance = (squares + NOISE_SAMPLES * noiseVariance) / (count + NOISE_SAMPLES)
    return cost + (count / 2) * Math.log(variance) + squares / (2 * variance)
  }, 0)
}

/** How much one sample counts for beside an independent one. */
function independentShare(y: Float64Array, { kink, before, after }: KinkFit): number {
  const left = y.map(
    (v, i) =>
      v - (i < kink ? before : after).reduceRight((sum, c) => sum * ((2 * (i - kink)) / y.length) + c, 0),
  )
  const squares = left.reduce((sum, v) => sum + v * v, 0)
  const together = squares > 0 ? left.subarray(1).reduce((sum, v, i) => sum + v * left[i]!, 0) / squares : 0
  const correlation = Math.min(Math.max(together, 0), MOST_CORRELATION)
  return (1 - correlation) / (1 + correlation)
}
