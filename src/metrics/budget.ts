import type { Unit } from '../units/measured.ts'
import type { BudgetLine } from './figures.ts'

/** A present value with the parts of its uncertainty. */
export interface Budgeted<U extends Unit> {
  ok: true
  value: number
  u: number
  unit: U
  budget: readonly BudgetLine[]
}

/** Root sum of squares of a budget's lines. @source JCGM 100:2008, 5.1.2 */
export const totalOf = (budget: readonly BudgetLine[]): number => Math.hypot(...budget.map((line) => line.u))

/** A present value whose u is the total of its budget; lines of the same source are joined, empty ones left out. */
export function withBudget<U extends Unit>(
  value: number,
  unit: U,
  lines: readonly BudgetLine[],
): Budgeted<U> {
  const budget = joined(lines)
  return { ok: true, value, u: totalOf(budget), unit, budget }
}

/** Budget of a difference or sum of independent figures in the same unit. */
export function joined(lines: readonly BudgetLine[]): BudgetLine[] {
  const sums = new Map<BudgetLine['source'], Pick<BudgetLine, 'step' | 'sides'> & { square: number }>()
  for (const { source, u, step, sides } of lines) {
    const sum = sums.get(source)
    sums.set(source, {
      square: (sum?.square ?? 0) + u * u,
      step: step ?? sum?.step,
      sides: sides ?? sum?.sides,
    })
  }
  return [...sums]
    .filter(([, { square }]) => square > 0)
    .map(([source, { square, step, sides }]) => ({
      source,
      u: Math.sqrt(square),
      ...(step !== undefined && { step }),
      ...(sides !== undefined && { sides }),
    }))
}

/** A budget in another unit: every line times the size of the sensitivity. */
export const scaled = (budget: readonly BudgetLine[], sensitivity: number): BudgetLine[] =>
  budget.map(({ source, u, step, sides }) => ({
    source,
    u: u * Math.abs(sensitivity),
    ...(step !== undefined && { step: step * Math.abs(sensitivity) }),
    ...(sides !== undefined && { sides: scaledSides(sides, sensitivity) }),
  }))

const scaledSides = ({ down, up }: NonNullable<BudgetLine['sides']>, by: number) =>
  by >= 0 ? { down: down * by, up: up * by } : { down: -up * by, up: -down * by }
