import type { EngineClass } from '../conclusion/words.ts'
import { FAMILY } from '../verdicts/kinds/index.ts'
import type { VerdictName } from '../verdicts/verdict-names.ts'
import type { HistoryRow } from './repeats.ts'

/** How a job came out, for counting: each job in one of these. */
export const OUTCOMES = ['fault', 'unsure', 'in order', 'no record'] as const
export type Outcome = (typeof OUTCOMES)[number]

/** What each class of an engine counts as. */
const OUTCOME_OF: Readonly<Record<EngineClass, Outcome>> = {
  fault: 'fault',
  suspected: 'unsure',
  'not known': 'unsure',
  'in order': 'in order',
}

/**
 * By the conclusion: what the engine came in with, and in order only where it left so too. In records before it: a fault
 * where any cylinder is odd; in order where all were judged and none is odd or borderline; otherwise unsure.
 */
export function outcomeOf(row: HistoryRow): Outcome {
  if (row.state !== 'reported') return 'no record'
  if (row.engineAsFound !== '' && row.engineNow !== '')
    return OUTCOME_OF[row.engineAsFound === 'in order' ? row.engineNow : row.engineAsFound]
  if (row.families.length > 0) return 'fault'
  return row.judged > 0 && row.borderline === 0 && row.notJudged === 0 ? 'in order' : 'unsure'
}

/** Counts by name. */
export type Counts = Map<string, number>
const add = (counts: Counts, name: string, by = 1): void => {
  counts.set(name, (counts.get(name) ?? 0) + by)
}

/** A cause called in first place, with how its repairs came out. */
interface CauseCount {
  jobs: number
  repairs: Counts
}

/** Everything a fleet is counted by. Its size depends on months, causes and codes, never on the number of jobs. */
export interface Tally {
  jobs: number
  states: Counts
  outcomes: Counts
  /** Month (2026-03) -> outcomes; jobs without a date stand under ''. */
  months: Map<string, Counts>
  families: Counts
  /** Only causes that the evidence let be called the cause; `unsettled` counts the jobs with several. */
  causes: Map<string, CauseCount>
  unsettled: number
  /** Repair checks of jobs with a fault or with work done. */
  repairs: Counts
  /** Work was done on a fault and no capture was taken after. */
  uncheckedWork: number
  repeats: Counts
  /** Overruled findings, by whom later evidence bears out. */
  reviews: Counts
  repeatsAfterConfirmed: number
  reasons: Counts
  warnings: Counts
  remarks: Counts
  vinChecks: Counts
  noVehicle: number
  uncertaintyAssumed: number
  limitsChanged: number
  unsigned: number
  notJudgedCylinders: number
  cylinders: number
}

export const emptyTally = (): Tally => ({
  jobs: 0,
  states: new Map(),
  outcomes: new Map(),
  months: new Map(),
  families: new Map(),
  causes: new Map(),
  unsettled: 0,
  repairs: new Map(),
  uncheckedWork: 0,
  repeats: new Map(),
  reviews: new Map(),
  repeatsAfterConfirmed: 0,
  reasons: new Map(),
  warnings: new Map(),
  remarks: new Map(),
  vinChecks: new Map(),
  noVehicle: 0,
  uncertaintyAssumed: 0,
  limitsChanged: 0,
  unsigned: 0,
  notJudgedCylinders: 0,
  cylinders: 0,
})

/** Adds one job to a tally that is being made. */
export function count(tally: Tally, row: HistoryRow): void {
  const outcome = outcomeOf(row)
  tally.jobs++
  add(tally.states, row.state)
  add(tally.outcomes, outcome)
  const month = row.date.slice(0, 7)
  const ofMonth = tally.months.get(month) ?? new Map<string, number>()
  tally.months.set(month, ofMonth)
  add(ofMonth, outcome)
  for (const reason of row.reason.split(' ').filter(Boolean)) add(tally.reasons, reason)
  if (row.state === 'reported') countReported(tally, row)
}

function countReported(tally: Tally, row: HistoryRow): void {
  for (const family of row.families) add(tally.families, family)
  countCause(tally, row)
  if (isRepairCase(row)) add(tally.repairs, row.repair)
  if (isUnchecked(row)) tally.uncheckedWork++
  for (const { end } of row.reviews) add(tally.reviews, end)
  if (row.repeat) {
    add(tally.repeats, row.repeat.kind)
    if (row.repeat.repair === 'repair confirmed') tally.repeatsAfterConfirmed++
  }
  for (const code of row.warnings) add(tally.warnings, code)
  for (const code of row.remarks) add(tally.remarks, code)
  add(tally.vinChecks, row.vinCheck)
  if (row.vehicle === '') tally.noVehicle++
  if (!row.uncertaintyStated) tally.uncertaintyAssumed++
  if (row.changedLimits > 0) tally.limitsChanged++
  if (!row.signed) tally.unsigned++
  tally.notJudgedCylinders += row.notJudged
  tally.cylinders += row.judged + row.notJudged
}

function countCause(tally: Tally, row: HistoryRow): void {
  if (row.cause === '') return
  if (!row.causeSettled) {
    tally.unsettled++
    return
  }
  const entry = tally.causes.get(row.cause) ?? { jobs: 0, repairs: new Map<string, number>() }
  tally.causes.set(row.cause, entry)
  entry.jobs++
  add(entry.repairs, row.repair)
}

/** There was something to repair, or something was done. */
export const isRepairCase = (row: HistoryRow): boolean =>
  row.families.length > 0 || row.engineAsFound === 'fault' || row.work > 0

/** Work was done on a fault and nothing shows how it came out. */
export const isUnchecked = (row: HistoryRow): boolean =>
  row.work > 0 && (row.families.length > 0 || row.engineAsFound === 'fault') && row.repair === 'not checked'

/** The engine left with a fault that stands. */
export const isOpen = (row: HistoryRow): boolean => row.engineNow === 'fault'

/** Work was done, and nothing shows that the engine is in order since. */
export const isNotShown = (row: HistoryRow): boolean =>
  row.work > 0 && row.repair !== 'repair confirmed' && row.engineNow !== 'in order' && row.engineNow !== ''

/** Entries by falling count, equal ones by name. */
export const byCount = (counts: ReadonlyMap<string, number>): (readonly [name: string, count: number])[] =>
  [...counts].sort(([a, m], [b, n]) => n - m || (a < b ? -1 : 1))

/** The verdict that stands for a whole job: that of its first odd cylinder, else the least sure one. */
export function jobVerdict(row: HistoryRow): VerdictName {
  const odd = row.verdicts.find(({ verdict }) => FAMILY[verdict as VerdictName])
  if (odd) return odd.verdict as VerdictName
  if (row.borderline > 0) return 'borderline'
  return row.notJudged > 0 || row.judged === 0 ? 'not judged' : 'level'
}
