import type { FigureName, Summary } from '../../metrics/figures.ts'
import { median } from '../../maths/median.ts'
import { normalQuantile } from '../../maths/normal.ts'
import type { Interval } from '../../units/measured.ts'
import { ownU } from '../fellows/own-rise.ts'
import { APART_FIGURES } from './apart-finding.ts'
import type { ReadCylinder, ReadInput } from './reading.ts'

/** sqrt(pi / 2): the median of several normal values scatters so much more than their mean. */
const MEDIAN_SPREAD = Math.sqrt(Math.PI / 2)

/** A cylinder's figure against the middle of its fellows', as their ratio and as a difference in the figure's unit. */
export interface AgainstFellows {
  ratio: Interval<'1'>
  difference: Interval
}

type Present = Extract<Summary, { ok: true }>

/**
 * A figure of a cylinder against that of its fellows. The intervals hold at 95 % over all cylinders of the engine and
 * all figures read so (Bonferroni); what one recorder does to all cylinders alike is left out of them. Of two fellows
 * that differ the nearer counts, since they do not say which of them is usual.
 *
 * @param fellows  at least one with the figure
 * @returns undefined where either side has no such figure, or only one bound of it
 */
export function ratioToFellows(
  name: FigureName,
  fellows: readonly ReadCylinder[],
  { own, fellows: all, pickup }: ReadInput,
): AgainstFellows | undefined {
  const figure = own.figures[name]
  const others = fellows.flatMap(({ figures: { [name]: f } }) =>
    f.ok && isBounded(f) && f.value > 0 ? [f] : [],
  )
  if (!figure.ok || !isBounded(figure) || figure.value <= 0 || others.length === 0) return undefined
  const z = normalQuantile(1 - 0.025 / ((all.length + 1) * APART_FIGURES.length))
  // Pickups of their own differ in their gain; one for all does not.
  const uOf = (f: Present): number => (pickup === 'common lead' ? ownU(f) : allU(f))
  const reference =
    others.length === 2
      ? others.toSorted((a, b) => Math.abs(a.value - figure.value) - Math.abs(b.value - figure.value))[0]!
          .value
      : median(others.map((f) => f.value))!
  const meanU = Math.hypot(...others.map(uOf)) / others.length
  const referenceU = others.length === 2 ? uOf(others[0]!) : others.length > 2 ? MEDIAN_SPREAD * meanU : meanU
  const reach = z * Math.hypot(uOf(figure) / figure.value, referenceU / reference)
  const ratio = figure.value / reference
  const low = ratio * Math.exp(-reach)
  const high = ratio * Math.exp(reach)
  return {
    ratio: { value: ratio, low, high, unit: '1' },
    difference: {
      value: figure.value - reference,
      low: (low - 1) * reference,
      high: (high - 1) * reference,
      unit: figure.unit,
    },
  }
}

const isBounded = ({ low, high }: Present): boolean => Number.isFinite(low) && Number.isFinite(high)

const allU = ({ budget }: Present): number => Math.hypot(...budget.map(({ u }) => u))

/** Above or below the fellows, %, from the ratio to them. */
export const percentOf = ({ value, low, high }: Interval): Interval<'%'> => ({
  value: 100 * (value - 1),
  low: 100 * (low - 1),
  high: 100 * (high - 1),
  unit: '%',
})
