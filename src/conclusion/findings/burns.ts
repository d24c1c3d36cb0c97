import type { Summary } from '../../metrics/figures.ts'
import type { Basis } from '../../verdicts/define-rule.ts'
import { whereOf, type JobFinding, type Size } from '../finding.ts'
import type { Seen, SeenCylinder } from '../seen.ts'
import { findingStates, type Direction, type FindingKind } from '../words.ts'

/** The cylinders of one state and condition, as one capture or several alike show them. */
export interface BurnGroup {
  state: SeenCylinder['state']
  condition: string
  cylinders: readonly SeenCylinder[]
}

/** Captured cylinders by state and condition, idle first: the limits are those of an idle. */
export function burnGroups({ judged }: Seen): BurnGroup[] {
  const rank = (condition: string) => (condition === 'idle' ? `0${condition}` : `1${condition}`)
  const conditions = [...new Set(judged.map((c) => c.condition))].sort((a, b) => (rank(a) < rank(b) ? -1 : 1))
  return findingStates.flatMap((state) =>
    conditions.flatMap((condition) => {
      const cylinders = judged
        .filter((c) => c.state === state && c.condition === condition)
        .sort((a, b) => a.cylinder - b.cylinder)
      return cylinders.length > 0 ? [{ state, condition, cylinders }] : []
    }),
  )
}

export const figureSize = (
  figure: Summary,
  limits: { low?: number | undefined; high?: number | undefined } = {},
): Size | undefined =>
  figure.ok
    ? {
        value: figure.value,
        low: figure.low,
        high: figure.high,
        unit: figure.unit,
        limitLow: limits.low,
        limitHigh: limits.high,
      }
    : undefined

/** The size that lies farthest from order among several cylinders'. */
export function farthest(sizes: readonly (Size | undefined)[]): Size | undefined {
  const seen = sizes.filter((s) => s !== undefined)
  const apart = (s: Size) => {
    const middle =
      s.limitLow !== undefined && s.limitHigh !== undefined
        ? (s.limitLow + s.limitHigh) / 2
        : (s.limitHigh ?? s.limitLow ?? 0)
    return Math.abs(s.value - middle)
  }
  return [...seen].sort((a, b) => apart(b) - apart(a))[0]
}

/** A finding on cylinders of one group. */
export const burnFinding = (
  seen: Seen,
  group: BurnGroup,
  it: {
    kind: FindingKind
    of: readonly SeenCylinder[]
    direction: Direction
    size?: Size | undefined
    /** What decided, where it was not the cylinders' verdict. */
    basis?: Basis
  } & Partial<Pick<JobFinding, 'order' | 'sure' | 'why' | 'unsure'>>,
): JobFinding => ({
  kind: it.kind,
  state: group.state,
  order: it.order ?? (it.direction === 'none' ? 'in order' : 'out of order'),
  where: whereOf(
    it.of.map((c) => c.cylinder),
    { all: seen.cylinders, banks: seen.banks },
  ),
  direction: it.direction,
  condition: group.condition,
  offIdle: offIdleOf(it.of, it.basis),
  reading: undefined,
  size: it.size,
  sure: it.sure ?? 'measured',
  why: it.why,
  unsure: it.unsure ?? [],
  tests: [],
  captures: [...new Set(it.of.map((c) => c.capture))].sort(),
})

/** How cylinders off a warm idle were judged: one that had no fellow to be held against speaks for all of a finding. */
function offIdleOf(of: readonly SeenCylinder[], basis: Basis | undefined): JobFinding['offIdle'] {
  const running = of.find((c) => c.running !== 'idle')?.running
  const bases = of.flatMap((c) => basis ?? c.basis ?? [])
  if (running === undefined || bases.length === 0) return undefined
  return { running, basis: bases.includes('limit') ? 'limit' : 'fellows' }
}
