import { sentence, type Sentence, type Texts } from '../../texts/messages.ts'
import type { JudgedHistory, FollowedChange } from '../../verdicts/history/judge-history.ts'
import { FOLLOWED, type Followed, type Visit } from '../../verdicts/history/visit.ts'
import type { HistoryRecord } from '../result.ts'
import { toDigits } from '../round.ts'
import { statement } from './statement.ts'

/** What is known of the vehicle's earlier visits. */
export interface KnownHistory {
  visits: readonly { visit: Visit; by: 'vin' | 'unit' | 'plate'; name: string; sha256: string }[]
  leftOut: readonly { name: string; why: HistoryRecord['left_out'][number]['why'] }[]
  /** Outputs of other vehicles that the shop's scatter was taken from. */
  others: number
  judged: JudgedHistory
}

const FIGURE_WORDS = {
  late_rise_pct: sentence('history.late-rise'),
  firing_kv: sentence('history.firing'),
  burn_ms: sentence('history.burn'),
} as const satisfies Record<Followed, Sentence>
const UNITS = { late_rise_pct: '%', firing_kv: 'kV', burn_ms: 'ms' } as const satisfies Record<
  Followed,
  string
>
const STAGES = { before: sentence('review.as-found'), after: sentence('review.after') } as const

/** The history as the record has it. */
export function historyRecord(texts: Texts, it: KnownHistory): HistoryRecord {
  const { visits, judged } = it
  const said = (says: Sentence) => statement(texts, says)
  return {
    visits: visits.map(({ visit, by, name, sha256 }) => ({
      work_order: visit.workOrder,
      opened: visit.opened,
      odometer: visit.odometer,
      identity: by,
      output: name,
      manifest_sha256: sha256,
      cylinders: visit.cylinders.map(({ stage, cylinder, healthy, figures }) => ({
        stage,
        cylinder,
        healthy,
        figures: Object.fromEntries(
          FOLLOWED.flatMap((name_) => {
            const of = figures[name_]
            return of ? [[name_, { value: of.value, low: of.low, high: of.high, unit: UNITS[name_] }]] : []
          }),
        ),
      })),
    })),
    left_out: it.leftOut.map(({ name, why }) => ({ output: name, why })),
    others: it.others,
    scatter: Object.fromEntries(FOLLOWED.map((f) => [f, toDigits(judged.scatter[f].sd)])),
    changes: inOrder(judged.changes).map((c) => ({
      stage: c.stage,
      cylinder: c.cylinder,
      figure: c.figure,
      now: { value: c.now.value, low: c.now.low, high: c.now.high, unit: UNITS[c.figure] },
      reference: toDigits(c.reference),
      visits: c.change.visits,
      change: toDigits(c.change.change),
      reference_change: toDigits(c.change.limit),
      changed: c.change.changed,
    })),
    says: saysOf(it).map(said),
  }
}

/** By figure, then stage, then cylinder. */
const inOrder = (changes: readonly FollowedChange[]): FollowedChange[] =>
  changes.toSorted(
    (a, b) =>
      FOLLOWED.indexOf(a.figure) - FOLLOWED.indexOf(b.figure) ||
      Number(a.stage === 'after') - Number(b.stage === 'after') ||
      a.cylinder - b.cylinder,
  )

/** In a few sentences: what changed, or that nothing did, and what limits it. */
function saysOf({ visits, judged, leftOut }: KnownHistory): Sentence[] {
  const left = leftOut.length === 0 ? [] : [sentence('history.left-out', { count: leftOut.length })]
  if (visits.length === 0) return [sentence('history.none'), ...left]
  const changed = inOrder(judged.changes).filter(({ change }) => change.changed)
  const weak = visits.some(({ by }) => by === 'plate') ? [sentence('history.weak')] : []
  const found =
    judged.changes.length === 0
      ? [sentence('history.no-healthy', { visits: visits.length })]
      : changed.length === 0
        ? [sentence('history.unchanged', { count: judged.changes.length, visits: visits.length })]
        : changed.map(changeSays)
  return [...found, ...weak, ...left]
}

const changeSays = (c: FollowedChange): Sentence =>
  sentence('history.changed', {
    figure: FIGURE_WORDS[c.figure],
    cylinder: c.cylinder,
    when: STAGES[c.stage],
    now: { value: c.now.value, low: c.now.low, high: c.now.high, unit: UNITS[c.figure] },
    reference: c.reference,
    visits: c.change.visits,
    change: c.change.change,
    most: c.change.limit,
  })
