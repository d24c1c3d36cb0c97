import type { Summary } from '../../metrics/figures.ts'
import { whereOf, type JobFinding, type Size } from '../finding.ts'
import type { Seen, SeenCylinder } from '../seen.ts'
import { findingStates, type Direction, type FindingKind } from '../words.ts'

/** The cylinders of one state and condition, warm or cold, as one capture or several alike show them. */
export interface BurnGroup {
  state: SeenCylinder['state']
  condition: string
  engine: SeenCylinder['engine']
  cylinders: readonly SeenCylinder[]
}

/** Captured cylinders by state and condition, idle first: the limits are those of an idle. */
export function burnGroups({ judged }: Seen): BurnGroup[] {
  const rank = (condition: string) => (condition === 'idle' ? `0${condition}` : `1${condition}`)
  const conditions = [...new Set(judged.map((c) => c.condition))].sort((a, b) => (rank(a) < rank(b) ? -1 : 1))
  return findingStates.flatMap((state) =>
    conditions.flatMap((condition) =>
      (['warm', 'cold'] as const).flatMap((engine) => {
        const cylinders = judged
          .filter((c) => c.state === state && c.condition === condition && c.engine === engine)
          .sort((a, b) => a.cylinder - b.cylinder)
        return cylinders.length > 0 ? [{ state, condition, engine, cylinders }] : []
      }),
    ),
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
  reading: undefined,
  size: it.size,
  sure: it.sure ?? 'measured',
  why: it.why,
  unsure: it.unsure ?? [],
  tests: [],
  captures: [...new Set(it.of.map((c) => c.capture))].sort(),
})
