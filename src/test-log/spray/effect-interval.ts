import type { Interval } from '../../units/measured.ts'
import type { EffectShape } from './effect-shapes.ts'
import { surpriseOf } from './response-shapes.ts'
import { fitPattern, weighed, type Onsets, type Surprises } from './scan-window.ts'

/** What one spray did to the speed, as far as its trace can tell. */
export interface Effect {
  /** Largest change, rpm; bounds from the noise of the trace alone, see `withShapeShare`. */
  change: Interval<'rpm'>
  /** Onset after the start of the spray, steps of the trace. */
  onset: { value: number; low: number; high: number }
}

/** One shape at one onset: the height that fits best, its standard error, and its squared score. */
interface Fit {
  rpm: number
  seRpm: number
  squared: number
  onset: number
}

export interface EffectSearch {
  /** From the first onset to the end of the longest shape at the last one. */
  surprises: Surprises
  /** Rows an onset may fall in, and the row of the spray's start they are counted from. */
  onsets: Onsets
  patterns: readonly EffectPattern[]
  sigmaRpm: number
}

/** A shape as the idle model sees it. */
export type EffectPattern = Pick<EffectShape, 'within'> & ReturnType<typeof weighed>

/** @param lags  the idle model's, nearest first */
export const effectPatterns = (shapes: readonly EffectShape[], lags: Float64Array): EffectPattern[] =>
  shapes.map((shape) => ({ within: shape.within, ...weighed(surpriseOf(shape, lags)) }))

/**
 * Size and onset of a response by the profile of its likelihood: every height that some shape at some onset explains
 * nearly as well as the best of all explains its own. Shapes and onsets the trace cannot tell apart widen the interval.
 *
 * @param bound  how much worse counts as nearly as well: the score that chance reaches in 5 % of windows, so that where
 *               nothing responds the interval holds 0 in 95 % of windows
 * @returns      undefined where no shape lies on usable rows
 * @source       profile likelihood for least squares: Seber and Wild, Nonlinear Regression, ch. 5; from memory
 */
export function effectOf(search: EffectSearch, bound: number): Effect | undefined {
  const fits = fitsOf(search)
  const best = fits.reduce<Fit | undefined>((a, b) => (a && a.squared >= b.squared ? a : b), undefined)
  if (!best) return undefined
  const close = fits.filter((f) => best.squared - f.squared <= bound ** 2)
  const reach = (f: Fit) => f.seRpm * Math.sqrt(bound ** 2 - (best.squared - f.squared))
  return {
    change: {
      value: best.rpm,
      unit: 'rpm',
      low: Math.min(...close.map((f) => f.rpm - reach(f))),
      high: Math.max(...close.map((f) => f.rpm + reach(f))),
    },
    onset: {
      value: best.onset,
      low: Math.min(...close.map((f) => f.onset)),
      high: Math.max(...close.map((f) => f.onset)),
    },
  }
}

function fitsOf({ surprises, onsets, patterns, sigmaRpm }: EffectSearch): Fit[] {
  const fits: Fit[] = []
  const fit = { rpm: 0, weight: 0 }
  for (let row = onsets.from; row <= onsets.to; row++) {
    for (const shape of patterns) {
      fitPattern(surprises, row, shape, fit)
      const { rpm, weight } = fit
      if (weight === 0) continue
      const seRpm = sigmaRpm / Math.sqrt(weight)
      fits.push({ rpm, seRpm, squared: (rpm / seRpm) ** 2, onset: row - onsets.spray + shape.within })
    }
  }
  return fits
}

/**
 * Part of a change by which its height can differ from the real one because the real shape is none of ours, or the idle
 * model that undoes the swing is off; half width, 95 %. From simulated idles other than those of the bench.
 */
const SHAPE_SHARE = 0.12

/** The whole interval: noise and shape are independent, so their half widths add as the root of their squares. */
export function withShapeShare({ value, low, high }: Interval<'rpm'>): Interval<'rpm'> {
  const shape = SHAPE_SHARE * value
  return {
    value,
    low: value - Math.hypot(value - low, shape),
    high: value + Math.hypot(high - value, shape),
    unit: 'rpm',
  }
}

/** Mean of several sprays of one place, weighted by their certainty. Bounds from the noise alone, as theirs. */
export function meanChange(changes: readonly Interval<'rpm'>[]): Interval<'rpm'> {
  const weights = changes.map((c) => 4 / (c.high - c.low) ** 2)
  const sum = weights.reduce((a, w) => a + w, 0)
  const value = changes.reduce((a, c, i) => a + weights[i]! * c.value, 0) / sum
  return { value, low: value - 1 / Math.sqrt(sum), high: value + 1 / Math.sqrt(sum), unit: 'rpm' }
}
