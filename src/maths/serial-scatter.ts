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
  /** Chance before the data. */
  prior: number
}

/** What the order of the values says. */
export interface SerialScatter {
  /** Correlation of neighbours, averaged over how probable the models are. */
  correlation: number
  /**
   * One a series, in the unit of its values: what is to be added, in squares, to the half width of the rank interval
   * of its median, for the interval to hold the median that is reached in the long run at 95 %.
   */
  beyond: number[]
}

const CORRELATIONS = [0.2, 0.35, 0.5, 0.65, 0.8, 0.91]
const SHARES = [0.5, 0.75, 1]
/** Chance, before the data, that neighbouring events are no more alike than others. This project's judgement. */
const WHITE_PRIOR = 0.6
const MODELS: readonly Model[] = [
  { correlation: 0, share: 0, prior: WHITE_PRIOR },
  ...CORRELATIONS.flatMap((correlation) =>
    SHARES.map((share) => ({
      correlation,
      share,
      prior: (1 - WHITE_PRIOR) / (CORRELATIONS.length * SHARES.length),
    })),
  ),
]

/** Fewest values of a series that say something of their order. */
const LEAST_VALUES = 5
/** What the fellows know of a series' scatter counts as so many degrees of freedom at most: cylinders differ. */
const MOST_FROM_FELLOWS = 8
/** Models less probable than this are left out. */
const LEAST_WEIGHT = 1e-4
/** The half width is sought to this share. */
const CLOSE = 2e-3

/**
 * How the values of several cylinders scatter in time, and what that does to the interval of each one's median.
 *
 * Models of correlated and white scatter stand on a grid. Each is as probable as the series make it, mean and scale
 * integrated out; the likelihoods of the series are added, and divided by the design effect of their cross-correlation,
 * since those that move as one tell what one of them would. The interval of a mean is Student's t of every model,
 * averaged over these chances; its scale is the series' own with some of its fellows'.
 *
 * @source likelihood of gapped series with a white part: Jones 1980, Technometrics 22(3), 389-395; averages over the
 *         posterior: Hoeting et al. 1999, Statistical Science 14(4), 382-417; design effect: Kish 1965, Survey Sampling, 5.4
 */
export function serialScatter(all: readonly Series[]): SerialScatter {
  const known = all.flatMap((s, i) => (s.values.length >= LEAST_VALUES ? [{ ...s, i }] : []))
  const beyond = all.map(() => 0)
  if (known.length === 0) return { correlation: 0, beyond }
  const effect = 1 + (known.length - 1) * crossCorrelation(known)
  const fits = MODELS.map((model) => known.map((s) => fitOf(s, model)))
  const logs = MODELS.map(
    ({ prior }, m) => Math.log(prior) + fits[m]!.reduce((sum, f) => sum + f.log, 0) / effect,
  )
  const most = Math.max(...logs)
  const parts = logs.map((l) => Math.exp(l - most))
  const total = parts.reduce((sum, p) => sum + p, 0)
  const weights = parts.map((p) => p / total)
  known.forEach(({ values: { length: n }, i }, k) => {
    const tails = MODELS.map((model, m) => ({
      ...meanOf(fits[m]!, k, { model, n, effect }),
      weight: weights[m]!,
    }))
    beyond[i] = beyondWhite(tails)
  })
  return { correlation: MODELS.reduce((sum, m, k) => sum + weights[k]! * m.correlation * m.share, 0), beyond }
}

/** A series under a model: logarithm of its likelihood; squares left about its mean, and precision of that, both per unit variance. */
interface Fit {
  log: number
  left: number
  precision: number
  freedom: number
}

/** A Kalman filter through the gaps of the series. */
function fitOf({ cycles, values }: Series, { correlation, share }: Model): Fit {
  let [stateY, stateOne, spread] = [0, 0, share]
  let [logs, precision, oneY, yY] = [0, 0, 0, 0]
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
    precision += (offOne * offOne) / variance
    oneY += (offOne * offY) / variance
    yY += (offY * offY) / variance
    const gain = spread / variance
    stateY += gain * offY
    stateOne += gain * offOne
    spread *= 1 - gain
  })
  const freedom = values.length - 1
  const left = Math.max(yY - oneY ** 2 / precision, 1e-12 * Math.max(yY, 1))
  return { log: -0.5 * (logs + Math.log(precision) + freedom * Math.log(left)), left, precision, freedom }
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

/** Standard deviation of a series' median about the long run's under one model, and its degrees of freedom. */
function meanOf(
  fits: readonly Fit[],
  own: number,
  { model, n, effect }: { model: Model; n: number; effect: number },
): { scale: number; freedom: number } {
  const { left, precision, freedom } = fits[own]!
  const fellows = fits.filter((_, k) => k !== own)
  const theirs = fellows.reduce((sum, f) => sum + f.freedom, 0)
  const counted = Math.max(0, fits.length / effect - 1)
  const added = theirs > 0 ? MOST_FROM_FELLOWS * Math.min(1, counted / 2) : 0
  const usual = theirs > 0 ? fellows.reduce((sum, f) => sum + f.left, 0) / theirs : 0
  const variance = (left + added * usual) / (freedom + added)
  return { scale: Math.sqrt((variance / precision) * medianLoss(model, n)), freedom: freedom + added }
}

const losses = new Map<string, number>()

/**
 * By how much neighbours that are alike add more to the variance of a median than to that of a mean, the white part's
 * own loss left out.
 * @source covariance of signs of normal values: Sheppard 1899, Philosophical Transactions A 192, 101-167
 */
function medianLoss({ correlation, share }: Model, n: number): number {
  const key = `${correlation} ${share} ${n}`
  const known = losses.get(key)
  if (known !== undefined) return known
  let [signs, values] = [1, 1]
  for (let k = 1; k < n; k++) {
    const r = share * correlation ** k
    signs += 2 * (1 - k / n) * Math.asin(r)
    values += 2 * (1 - k / n) * r
  }
  losses.set(key, signs / values)
  return signs / values
}

/** Half width of the averaged interval less that of the white model, in squares. */
function beyondWhite(all: readonly { scale: number; freedom: number; weight: number }[]): number {
  const parts = all.filter((p) => p.weight > LEAST_WEIGHT)
  const total = parts.reduce((sum, p) => sum + p.weight, 0)
  const outside = (half: number): number =>
    parts.reduce((sum, p) => sum + (2 * p.weight * studentTCdf(-half / p.scale, p.freedom)) / total, 0)
  const white = studentTQuantile(0.975, all[0]!.freedom) * all[0]!.scale
  if (!(white > 0) || outside(white) <= 0.05) return 0
  let [low, high] = [white, 2 * white]
  while (outside(high) > 0.05) [low, high] = [high, 2 * high]
  while (high - low > CLOSE * low) {
    const middle = (low + high) / 2
    if (outside(middle) > 0.05) low = middle
    else high = middle
  }
  return Math.sqrt(((low + high) / 2) ** 2 - white ** 2)
}
