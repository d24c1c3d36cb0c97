import { isNotShown, isOpen, isUnchecked, outcomeOf } from './tally.ts'
import type { HistoryRow } from './repeats.ts'

/** One vehicle's history as the printed report shows it. */
export interface VehicleHistory {
  vehicle: string
  /** Newest words for it: year, make, model; and its unit number and plate. */
  words: string
  unitNumber: string
  plate: string
  /** The engine as its newest job left it. */
  now: HistoryRow['engineNow']
  /** All its jobs counted; `rows` holds the newest of them, oldest first. */
  jobs: number
  faults: number
  repeats: number
  unchecked: number
  /** Its newest job left it with a fault that stands; or with work that nothing shows to have held. */
  open: boolean
  notShown: boolean
  first: string
  last: string
  rows: readonly HistoryRow[]
}

/** Vehicles and jobs of one vehicle that go into the printed report; the rest stands in fleet.csv. */
const MOST_VEHICLES = 500
const MOST_ROWS = 24

/** Sums up one vehicle. @param rows  its jobs, oldest first, at least one */
export function historyOf(rows: readonly HistoryRow[]): VehicleHistory {
  const newest = rows.at(-1)!
  return {
    vehicle: newest.vehicle,
    words: newestOf(rows, 'vehicleWords'),
    unitNumber: newestOf(rows, 'unitNumber'),
    plate: newestOf(rows, 'plate'),
    now: newest.engineNow,
    jobs: rows.length,
    faults: rows.filter((row) => outcomeOf(row) === 'fault').length,
    repeats: rows.filter((row) => row.repeat).length,
    unchecked: rows.filter(isUnchecked).length,
    open: isOpen(newest),
    notShown: isNotShown(newest),
    first: rows[0]!.date,
    last: newest.date,
    rows: rows.slice(-MOST_ROWS),
  }
}

const newestOf = (rows: readonly HistoryRow[], what: 'vehicleWords' | 'unitNumber' | 'plate'): string =>
  rows.findLast((row) => row[what] !== '')?.[what] ?? ''

/** Vehicles that want attention first: faults that stand open, repairs not shown to have held, repeat faults, then unchecked work, then faults, then jobs; equal ones by name. */
const compare = (a: VehicleHistory, b: VehicleHistory): number =>
  Number(b.open) - Number(a.open) ||
  Number(b.notShown) - Number(a.notShown) ||
  b.repeats - a.repeats ||
  b.unchecked - a.unchecked ||
  b.faults - a.faults ||
  b.jobs - a.jobs ||
  (a.vehicle < b.vehicle ? -1 : 1)

/** Keeps the vehicles that want attention most, and never more than twice that many at a time. */
export function attentionList(most = MOST_VEHICLES): {
  offer(history: VehicleHistory): void
  list(): VehicleHistory[]
} {
  let kept: VehicleHistory[] = []
  const cut = () => {
    kept = kept.sort(compare).slice(0, most)
  }
  return {
    offer(history) {
      kept.push(history)
      if (kept.length >= 2 * most) cut()
    },
    list() {
      cut()
      return kept
    },
  }
}
