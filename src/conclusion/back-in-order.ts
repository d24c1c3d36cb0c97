import type { CylinderRepair } from '../verdicts/repair.ts'
import { isOfBurns, matterOf, type NamedFinding } from './finding.ts'
import { FINDINGS } from './findings/index.ts'
import { isOpen } from './states.ts'
import type { FindingKind } from './words.ts'

/** What became of each finding as found, and what is new after the work. */
export interface Comparison {
  /** Out of order as found and back in order. */
  back: readonly NamedFinding[]
  /** Still out of order, by the finding as found, with the finding after, and the cylinders of it that are back. */
  still: readonly { was: NamedFinding; is: NamedFinding; better: boolean; backOn: readonly number[] }[]
  /** Out of order after the work and not so, or not looked at, before. */
  appeared: readonly { is: NamedFinding; wasInOrder: boolean }[]
  /** Out of order as found and not read again in a way that tells. */
  notReadAgain: readonly NamedFinding[]
}

/**
 * Sets the findings after the work against those as found. Cylinders are compared by their own figures (the repair check
 * of the captures), readings of the log by the same reading under the same condition: back is one that was out of limits
 * and is within them now, by more than the readings' own doubt.
 */
export function compareStates(
  findings: readonly NamedFinding[],
  cylinders: readonly CylinderRepair[],
): Comparison {
  const before = findings.filter((f) => f.state === 'as found')
  const after = findings.filter((f) => f.state === 'after')
  const alone = before.filter(isOpen).map((was) => ({ was, became: becameOf(was, after, cylinders) }))
  const compared = alone.map((one) =>
    one.became.kind === 'not read' && isBorneOut(one.was, alone, { after, cylinders })
      ? { ...one, became: { kind: 'back' as const } }
      : one,
  )
  const named = new Set(compared.flatMap(({ became }) => (became.is ? [became.is.id] : [])))
  return {
    back: compared.filter((c) => c.became.kind === 'back').map((c) => c.was),
    still: compared.flatMap(({ was, became }) =>
      became.kind === 'still'
        ? [{ was, is: became.is, better: became.better, backOn: became.backOn ?? [] }]
        : [],
    ),
    notReadAgain: compared.filter((c) => c.became.kind === 'not read').map((c) => c.was),
    appeared: after
      .filter((f) => isOpen(f) && !named.has(f.id))
      .map((is) => ({ is, wasInOrder: before.some((f) => f.order === 'in order' && sameMatter(f, is)) })),
  }
}

/**
 * A figure of a cylinder that is too rare to tell from chance (three misfires in seventeen turns) or has no shift of its
 * own is back with another figure of the same cylinder that is, where nothing stands open on it any more.
 */
function isBorneOut(
  was: NamedFinding,
  compared: readonly { was: NamedFinding; became: Became }[],
  it: { after: readonly NamedFinding[]; cylinders: readonly CylinderRepair[] },
): boolean {
  if (!isOfBurns(was)) return false
  return was.where.cylinders.every(
    (cylinder) =>
      it.cylinders.some((c) => c.cylinder === cylinder && c.after === 'level') &&
      !it.after.some((f) => isOpen(f) && f.where.cylinders.includes(cylinder)) &&
      compared.some(
        (c) => c.became.kind === 'back' && isOfBurns(c.was) && c.was.where.cylinders.includes(cylinder),
      ),
  )
}

type Became =
  | { kind: 'back'; is?: undefined }
  | { kind: 'not read'; is?: undefined }
  | { kind: 'still'; is: NamedFinding; better: boolean; backOn?: readonly number[] }

function becameOf(
  was: NamedFinding,
  after: readonly NamedFinding[],
  cylinders: readonly CylinderRepair[],
): Became {
  return isOfBurns(was) ? cylindersBecame(was, after, cylinders) : readingBecame(was, after)
}

/**
 * Back where every cylinder that bore it moved back beyond chance and none bears it any more; those that were merely at
 * the limit of a pattern do not hold it up.
 */
function cylindersBecame(
  was: NamedFinding,
  after: readonly NamedFinding[],
  cylinders: readonly CylinderRepair[],
): Became {
  const bearing = was.where.cylinders.filter((c) => !was.unsure.includes(c))
  const moved = (cylinder: number) => {
    const compared = cylinders.find((c) => c.cylinder === cylinder)
    return compared !== undefined && wentBack(was, compared)
  }
  const is = after.find((f) => isOpen(f) && isOfBurns(f) && burnKind(f) === burnKind(was) && overlaps(f, was))
  if (is) {
    const better = bearing.filter(moved)
    const backOn = better.filter(
      (c) => !after.some((f) => isOpen(f) && isOfBurns(f) && f.where.cylinders.includes(c)),
    )
    return { kind: 'still', is, better: better.length > 0, backOn }
  }
  return bearing.length > 0 && bearing.every(moved) ? { kind: 'back' } : { kind: 'not read' }
}

/** A falling line is one matter, whether a gauge has told rich from low compression yet or not. */
const burnKind = ({ kind }: NamedFinding): FindingKind => (kind === 'compression' ? 'mixture' : kind)

/** A cylinder's verdict where the finding is one; else the shift of the figure it is told by. */
function wentBack(was: NamedFinding, { verdict, shifts, after }: CylinderRepair): boolean {
  if (after === 'not judged') return false
  const figure = FINDINGS[was.kind].shift
  const isVerdict = was.order === 'out of order' && (figure === undefined || was.kind === 'mixture')
  if (isVerdict) return verdict === 'repair confirmed' || verdict === 'improved, not in order'
  const shift = figure === undefined ? undefined : shifts[figure]
  if (!shift?.ok) return false
  const down = was.direction === 'high' || was.direction === 'lean'
  return down ? shift.interval.high < 0 : shift.interval.low > 0
}

function readingBecame(was: NamedFinding, after: readonly NamedFinding[]): Became {
  const again = after.filter((f) => sameMatter(f, was))
  const open = again.find(isOpen)
  if (open) return { kind: 'still', is: open, better: isBetter(was, open) }
  const calm = again.find((f) => f.order === 'in order')
  return calm && changed(was, calm) ? { kind: 'back' } : { kind: 'not read' }
}

const overlaps = (a: NamedFinding, b: NamedFinding): boolean =>
  a.where.cylinders.some((c) => b.where.cylinders.includes(c))

const sameMatter = (a: NamedFinding, b: NamedFinding): boolean =>
  a.kind === b.kind &&
  isOfBurns(a) === isOfBurns(b) &&
  (a.kind !== 'part' || a.reading === b.reading) &&
  (FINDINGS[a.kind].byCylinder
    ? overlaps(a, b) || (a.where.cylinders.length === 0 && matterOf(a) === matterOf(b))
    : matterOf(a) === matterOf(b))

/** Beyond the doubt of both readings; findings without a figure (a place that answers) change by what they say. */
function changed({ size: x }: NamedFinding, { size: y }: NamedFinding): boolean {
  if (!x || !y || x.unit !== y.unit) return true
  return Math.abs(y.value - x.value) > Math.hypot((x.high - x.low) / 2, (y.high - y.low) / 2)
}

/** Nearer to the limit it lies beyond, by more than the doubt of both readings. */
function isBetter(was: NamedFinding, is: NamedFinding): boolean {
  if (!was.size || !is.size || was.size.unit !== is.size.unit || was.direction !== is.direction) return false
  const middle =
    ((was.size.limitLow ?? was.size.limitHigh ?? 0) + (was.size.limitHigh ?? was.size.limitLow ?? 0)) / 2
  return changed(was, is) && Math.abs(is.size.value - middle) < Math.abs(was.size.value - middle)
}
