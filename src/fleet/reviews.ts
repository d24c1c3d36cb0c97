import { ORDER } from '../verdicts/kinds/index.ts'
import type { VerdictName } from '../verdicts/verdict-names.ts'
import type { FleetRow, Overruled } from './fleet-row.ts'

/** Whom the later evidence bears out. */
export const REVIEW_ENDS = ['reviewer', 'report', 'neither', 'open'] as const
export type ReviewEnd = (typeof REVIEW_ENDS)[number]

/** An overruled finding with how it ended, and the job that settled it. */
export interface SettledReview extends Overruled {
  end: ReviewEnd
  /** Work order; null while it is open. */
  settledBy: string | null
}

/** A later recording speaks of a verdict for so long: an engine goes on wearing. This project's judgement. */
const VERDICT_DAYS = 90
const DAY_MS = 24 * 60 * 60 * 1000

/**
 * Who was right about each overruled finding of one vehicle, from what its own job and later ones showed.
 *
 * A cause: the first repair shown to have held decides, on that job or a later one that found the same kind of fault; until
 * then, work on one of the two causes that changed nothing speaks for the other. A verdict: a repair of the cylinder shown
 * to have held bears out a verdict that something was wrong; else the next recording without work between decides.
 *
 * @param history  reported jobs of one vehicle, oldest first
 */
export const withReviews = <R extends FleetRow>(
  history: readonly R[],
): (R & { reviews: SettledReview[] })[] =>
  history.map((row, i) => ({
    ...row,
    reviews: row.overruled.map((review) => ({
      ...review,
      ...(review.of === 'cause'
        ? endOfCause(review, row, history.slice(i + 1))
        : endOfVerdict(review, row, history.slice(i + 1))),
    })),
  }))

type End = Pick<SettledReview, 'end' | 'settledBy'>
const OPEN: End = { end: 'open', settledBy: null }
const endAt = (end: ReviewEnd, { workOrder }: FleetRow): End => ({ end, settledBy: workOrder })

function endOfCause({ said, instead }: Overruled, row: FleetRow, later: readonly FleetRow[]): End {
  const ofSameFault = [row, ...later.filter((other) => isSameFault(row, other))]
  for (const job of ofSameFault) {
    if (job.mended.length === 0) continue
    const [reviewer, report] = [job.mended.includes(instead), said !== null && job.mended.includes(said)]
    // both mended in one go: nobody can tell which of the two it was
    if (reviewer && report) return OPEN
    return endAt(reviewer ? 'reviewer' : report ? 'report' : 'neither', job)
  }
  for (const job of ofSameFault) {
    const [reviewer, report] = [job.refuted.includes(instead), said !== null && job.refuted.includes(said)]
    if (reviewer && report) return endAt('neither', job)
    if (reviewer || report) return endAt(reviewer ? 'report' : 'reviewer', job)
  }
  return OPEN
}

const isSameFault = (row: FleetRow, other: FleetRow): boolean =>
  row.families.length === 0
    ? other.engineAsFound === 'fault'
    : other.families.some((family) => row.families.includes(family))

function endOfVerdict(
  { cylinder, stage, said, instead }: Overruled,
  row: FleetRow,
  later: readonly FleetRow[],
): End {
  const isOdd = (verdict: string | null) =>
    verdict !== null && ORDER[verdict as VerdictName] === 'out of order'
  if (stage === 'before' && row.mendedCylinders.includes(cylinder!)) {
    if (isOdd(said) && !isOdd(instead)) return endAt('report', row)
    if (isOdd(instead) && !isOdd(said)) return endAt('reviewer', row)
  }
  if (stage === 'before' && row.work > 0) return OPEN
  for (const job of later) {
    if (daysBetween(row, job) > VERDICT_DAYS) break
    const odd = job.verdicts.find((v) => v.cylinder === cylinder)?.verdict
    const found = odd ?? (job.inOrder.includes(cylinder!) ? 'level' : undefined)
    if (found !== undefined)
      return endAt(found === instead ? 'reviewer' : found === said ? 'report' : 'neither', job)
    if (job.work > 0) break
  }
  return OPEN
}

const daysBetween = (a: FleetRow, b: FleetRow): number =>
  a.date === '' || b.date === '' ? Infinity : (Date.parse(b.date) - Date.parse(a.date)) / DAY_MS
