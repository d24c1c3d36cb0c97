import { FIGURE_UNITS, type FigureName, type Summary } from '../../metrics/figures.ts'
import type { AbsenceCode, Interval, Measured, Unit } from '../../units/measured.ts'
import { toDigits } from '../round.ts'
import type { FigureRecord } from '../result.ts'

/** Units of voltage and of what is reckoned from it: without the pickup's ratio they say nothing. */
const OF_VOLTAGE: ReadonlySet<Unit> = new Set(['kV', 'kV/ms', 'mJ'])

/** Figures that stand in a record where the pickup's ratio is not stated. */
export const needsRatio = (name: FigureName): boolean => OF_VOLTAGE.has(FIGURE_UNITS[name])

/** A cylinder's figure with interval, scatter and uncertainty budget; or the reason it is absent. */
export function figureRecord(summary: Summary): FigureRecord {
  if (!summary.ok)
    return {
      absent: summary.why,
      ...(summary.atLeast !== undefined && { at_least: toDigits(summary.atLeast), unit: 'kV' }),
    }
  const { value, low, high, unit, mad, n, budget, extrapolatedFrom } = summary
  return {
    value: toDigits(value),
    low: toDigits(low),
    high: toDigits(high),
    unit,
    mad: toDigits(mad),
    n,
    budget: budget.map((line) => ({ source: line.source, u: toDigits(line.u, 3) })),
    ...(extrapolatedFrom !== undefined && { extrapolated_from: toDigits(extrapolatedFrom) }),
  }
}

type Plain = { value: number; low: number; high: number; unit: string } | { absent: string }

export const intervalRecord = ({ value, low, high, unit }: Interval) => ({
  value: toDigits(value),
  low: toDigits(low),
  high: toDigits(high),
  unit: unit as string,
})

/** An interval that may be absent. */
export const availableRecord = (
  shift: { ok: true; interval: Interval } | { ok: false; why: AbsenceCode },
): Plain => (shift.ok ? intervalRecord(shift.interval) : { absent: shift.why })

/** A measured value with standard uncertainty, as value and 95 % interval (k = 2). */
export function measuredRecord(m: Measured<Unit>): Plain {
  if (!m.ok) return { absent: m.why }
  return intervalRecord({ value: m.value, low: m.value - 2 * m.u, high: m.value + 2 * m.u, unit: m.unit })
}

/** A summary without its budget. */
export const plainSummary = (s: Summary): Plain => (s.ok ? intervalRecord(s) : { absent: s.why })
