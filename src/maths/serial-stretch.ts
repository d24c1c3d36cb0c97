import { studentTCdf, studentTQuantile } from './student-t.ts'

/** Values of one figure of one cylinder, with the working cycle each is of. */
export interface Series {
  /** Whole cycles from any start, rising. */
  cycles: readonly number[]
  values: readonly number[]
}

/** First-order correlated scatter beside white scatter: the correlation from cycle to cycle, and the share that has it. */
interface Model {
  correlation: number
  share: number
}

/** A model and how probable it is after the data. */
interface Weighted extends Model {
  weight: number
}

const CORRELATIONS = [0.3, 0.5, 0.65, 0.8, 0.93]
const SHARES = [0.6, 1]
/** Chance, before the data, that neighbouring events are no more alike than others. This project's judgement. */
const WHITE_PRIOR = 0.35

/** Fewest values of a cylinder that say something of their order. */
const LEAST_VALUES = 5
/** The scatter of several cylinders is known as well as that of this many at most: they differ among themselves. */
const MOST_COUNTED = 5
/** Variance of a mean of normal values over that of their median. */
const MEAN_TO_MEDIAN = 2 / Math.PI

const MODELS: readonly Weighted[] = [
  { correlation: 0, share: 0, weight: WHITE_PRIOR },
  ...CORRELATIONS.flatMap((correlation) =>
    SHARES.map((share) => ({
      correlation,
      share,
      weight: (1 - WHITE_PRIOR) / (CORRELATIONS.length * SHARES.length),
    })),
  ),
]

/** What the series of all cylinders together say of how a figure scatters. */
export interface Scatter {
  models: readonly Weighted[]
  /** How many cylinders' worth of evidence there is: those that move as one tell what one of them would. */
  counted: number
}

/**
 * How probable each way of scattering is, from the series of all cylinders together, counted by their cross-correlation.
 *
 * @source Jones 1980, Technometrics 22(3), 389-395 (likelihood of gapped series with a white part); mean and scale are
 *         integrated out
 */
export function scatterOf(series: readonly Series[]): Scatter {
  const own = series.filter((s) => s.values.length >= LEAST_VALUES)
  if (own.length === 0) return { models: MODELS, counted: 1 }
  const share = 1 / (1 + (own.length - 1) * crossCorrelation(own))
  const logs = MODELS.map(
    (m) => Math.log(m.weight) + share * own.reduce((sum, s) => sum + logLikelihood(s, m), 0),
  )
  const most = Math.max(...logs)
  const parts = logs.map((l) => Math.exp(l - most))
  const total = parts.reduce((sum, p) => sum + p, 0)
  const models = MODELS.map((m, i) => ({ ...m, weight: parts[i]! / total })).filter((m) => m.weight > 1e-4)
  return { models, counted: share * own.length }
}

/** Correlation of neighbouring events, averaged over the models. */
export const neighbourCorrelation = ({ models }: Scatter): number =>
  models.reduce((sum, m) => sum + m.weight * m.correlation * m.share, 0)

/** Likelihood of a series under a model, by a Kalman filter through its gaps. */
function logLikelihood({ cycles, values }: Series, { correlation, share }: Model): number {
  let [stateY, stateOne, spread] = [0, 0, share]
  let [logs, oneOne, oneY, yY] = [0, 0, 0, 0]
  values.forEach((y, i) => {
    if (i > 0) {
      const kept = correlation ** (cycles[i]! - cycles[i - 1]!)
      stateY *= kept
      stateOne *= kept
      spread = kept * kept * spread + share * (1 - kept * kept)
    }
    const variance = spread + 1 - share
    const [offY, offOne] = [y - stateY, 1 - stateOne]
    logs += Math.log(variance)
    oneOne += (offOne * offOne) / variance
    oneY += (offOne * offY) / variance
    yY += (offY * offY) / variance
    const gain = spread / variance
    stateY += gain * offY
    stateOne += gain * offOne
    spread *= 1 - gain
  })
  const left = Math.max(yY - oneY ** 2 / oneOne, 1e-12 * Math.max(yY, 1))
  return -0.5 * (logs + Math.log(oneOne) + (values.length - 1) * Math.log(left))
}

/** Mean correlation of the series with each other, cycle by cycle; never below zero. */
function crossCorrelation(series: readonly Series[]): number {
  const byCycle = series.map(({ cycles, values }) => {
    const middle = values.reduce((sum, v) => sum + v, 0) / values.length
    return new Map(cycles.map((c, i) => [c, values[i]! - middle]))
  })
  const found: number[] = []
  byCycle.forEach((a, i) =>
    byCycle.slice(i + 1).forEach((b) => {
      let [aa, bb, ab] = [0, 0, 0]
      for (const [c, x] of a) {
        const y = b.get(c)
        if (y === undefined) continue
        aa += x * x
        bb += y * y
        ab += x * y
      }
      if (aa > 0 && bb > 0) found.push(ab / Math.sqrt(aa * bb))
    }),
  )
  return Math.max(0, found.reduce((sum, r) => sum + r, 0) / Math.max(1, found.length))
}

/**
 * By how much the rank interval of a median of n values grows, against that of n independent ones, when it is to hold
 * the median that is reached in the long run: Student's t of every model, averaged over how probable the models are.
 * The part that neighbours share moves a median as it moves a mean, without the median's own loss.
 *
 * @param n  at least 3
 * @returns  at least 1
 * @source   intervals averaged over the posterior: JCGM 101:2008, 5; variance of a correlated mean and of its sample
 *           variance: Priestley 1981, Spectral Analysis and Time Series, 5.3
 */
export function serialStretch({ models, counted }: Scatter, n: number): number {
  const alike = Math.min(MOST_COUNTED, counted)
  const parts = models.map((m) => ({ ...meanOf(m, n, alike), weight: m.weight }))
  const beyond = (half: number): number =>
    parts.reduce((sum, p) => sum + 2 * p.weight * studentTCdf(-half / p.scale, p.freedom), 0)
  const plain = studentTQuantile(0.975, n - 1)
  let [low, high] = [plain, plain]
  while (beyond(high) > 0.05 && high < 1e3 * plain) high *= 2
  while (high - low > 1e-3 * plain) {
    const middle = (low + high) / 2
    if (beyond(middle) > 0.05) low = middle
    else high = middle
  }
  const mean = Math.max(1, (low + high) / 2 / plain)
  return Math.sqrt(1 + (mean ** 2 - 1) * MEAN_TO_MEDIAN)
}

/** Standard deviation of the mean in units of sample sd / sqrt(n), and its degrees of freedom. */
function meanOf({ correlation, share }: Model, n: number, alike: number): { scale: number; freedom: number } {
  const growth = 1 + 2 * share * pairs(correlation, n)
  const spreadLoss = Math.max(0.05, 1 - (growth - 1) / (n - 1))
  const freedom = alike * Math.max(1, (n - 1) / (1 + 2 * share ** 2 * pairs(correlation ** 2, n)))
  return { scale: Math.sqrt(growth / spreadLoss), freedom }
}

/** Sum over lags k of (1 - k/n) r^k. */
const pairs = (r: number, n: number): number =>
  r === 0 ? 0 : r / (1 - r) - (r * (1 - r ** n)) / (n * (1 - r) ** 2)
