import type { FleetRow } from './fleet-row.ts'
import type { SettledReview } from './reviews.ts'

/** An earlier job of the same vehicle that found the same. */
export interface Repeat {
  workOrder: string
  /** What its repair check said. */ repair: string
  kind: 'same cylinder' | 'same kind'
}

/** A row with its vehicle and, where the fault was there before, the last job that found it. */
export interface HistoryRow extends FleetRow {
  vehicle: string
  repeat: Repeat | null
  /** What persons overruled, and whom later evidence bears out. */
  reviews: readonly SettledReview[]
}

/**
 * Marks repeat faults in one vehicle's history: a kind of fault found again on a later job, best on the same cylinder.
 *
 * @param history  reported jobs of one vehicle, oldest first
 */
export function withRepeats(
  history: readonly (FleetRow & { vehicle: string })[],
): Omit<HistoryRow, 'reviews'>[] {
  const newest = new Map<string, FleetRow>()
  return history.map((row) => {
    const cylinder = row.verdicts.flatMap((v) => newest.get(cylinderMark(v)) ?? [])
    const kind = row.families.flatMap((family) => newest.get(family) ?? [])
    for (const mark of [...row.verdicts.map(cylinderMark), ...row.families]) newest.set(mark, row)
    return { ...row, repeat: repeat(cylinder, 'same cylinder') ?? repeat(kind, 'same kind') }
  })
}

const cylinderMark = ({ cylinder, verdict }: FleetRow['verdicts'][number]): string => `${cylinder} ${verdict}`

/** The latest of the jobs found. */
function repeat(found: readonly FleetRow[], kind: Repeat['kind']): Repeat | null {
  const [last] = found.toSorted((a, b) =>
    a.date > b.date || (a.date === b.date && a.workOrder > b.workOrder) ? -1 : 1,
  )
  return last ? { workOrder: last.workOrder, repair: last.repair, kind } : null
}
