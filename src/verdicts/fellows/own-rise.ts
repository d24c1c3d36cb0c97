import type { BudgetLine, CylinderMeasures, Summary } from '../../metrics/figures.ts'
import type { OwnRise } from './rise-against-fellows.ts'

/** What one recorder does to all cylinders of a capture alike; it falls out of their difference. */
const ALIKE: readonly BudgetLine['source'][] = ['instrument', 'method', 'pickup']

/** Standard uncertainty of a figure that is the cylinder's own, not shared by all of the capture. */
export const ownU = (summary: Extract<Summary, { ok: true }>): number =>
  Math.hypot(...summary.budget.filter(({ source }) => !ALIKE.includes(source)).map(({ u }) => u))

/** Late rise of a cylinder with its own part of the uncertainty; none where it has no figure. */
export const ownRise = ({ cylinder, figures: { lateRisePct } }: CylinderMeasures): OwnRise[] =>
  lateRisePct.ok ? [{ cylinder, pct: lateRisePct.value, u: ownU(lateRisePct) }] : []
