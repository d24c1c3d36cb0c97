import { median } from '../../maths/median.ts'

/** Cylinders of one capture that may be the level ones, and whether they are level by the limit. */
export interface LevelFellows {
  /** Groups that can stand for a level line: one, or several where the capture does not say which. */
  groups: readonly (readonly number[])[]
  /** False where no group lies inside the limits: the one nearest to level stands in. */
  level: boolean
}

/**
 * Which cylinders of a capture show what a level line looks like in it.
 *
 * Late rises are put in order and parted where a step is wider than healthy cylinders ever leave. A healthy line is
 * nearly level at any speed, so a group inside the limits is one of level lines; where more than half of the cylinders
 * make it, it alone is. Two such groups leave it open which is the odd one. So an odd cylinder, a bank or all but
 * one of them being lean do not move what they are compared with.
 *
 * @param rises   cylinder -> median late rise, %
 * @source project judgement
 */
export function levelFellows(
  rises: ReadonlyMap<number, number>,
  { limitPct, gapPct }: { limitPct: number; gapPct: number },
): LevelFellows {
  const groups = partAtGaps(rises, gapPct)
  const middleOf = (group: readonly number[]): number => median(group.map((c) => rises.get(c)!))!
  const inside = groups.filter((group) => Math.abs(middleOf(group)) <= limitPct)
  const most = inside.find((group) => 2 * group.length > rises.size)
  if (most) return { groups: [most], level: true }
  if (inside.length > 0) return { groups: inside, level: true }
  const nearest = groups.toSorted((a, b) => Math.abs(middleOf(a)) - Math.abs(middleOf(b)))
  return { groups: nearest.slice(0, 1), level: false }
}

function partAtGaps(rises: ReadonlyMap<number, number>, gapPct: number): number[][] {
  const sorted = [...rises].toSorted(([a, x], [b, y]) => x - y || a - b)
  const groups: number[][] = []
  sorted.forEach(([cylinder, rise], i) => {
    const before = sorted[i - 1]
    if (before && rise - before[1] <= gapPct) groups.at(-1)!.push(cylinder)
    else groups.push([cylinder])
  })
  return groups
}
