import type { Limits } from '../../limits/limits.ts'
import { limit } from '../../limits/limits.ts'
import type { BudgetLine, CylinderMeasures, Summary } from '../../metrics/figures.ts'
import type { PickupKind } from '../evidence.ts'
import { firingGapRise } from '../firing-gap-rise.ts'
import type { OwnRise } from './rise-against-fellows.ts'

/** What one recorder does to all cylinders of a capture alike; it falls out of their difference. */
const ALIKE: readonly BudgetLine['source'][] = ['instrument', 'method']

/** Standard uncertainty of a figure that is the cylinder's own, not shared by all of the capture. */
export const ownU = (summary: Extract<Summary, { ok: true }>): number =>
  Math.hypot(...summary.budget.filter(({ source }) => !ALIKE.includes(source)).map(({ u }) => u))

/** Late rise of a cylinder as it is judged, with its own part of the uncertainty; none where it has no figure. */
export function ownRise(
  { cylinder, figures: { lateRisePct } }: CylinderMeasures,
  pickup: PickupKind,
  limits: Limits,
): OwnRise[] {
  if (!lateRisePct.ok) return []
  const u = ownU(lateRisePct)
  if (pickup !== 'whole coil') return [{ cylinder, pct: lateRisePct.value, u }]
  const gap = firingGapRise(lateRisePct, limits)
  const share = limit(limits, 'wholeCoilFiringSharePct') / 100
  return gap.ok ? [{ cylinder, pct: gap.interval.value, u: u / share }] : []
}
