import type { WordKey } from '../texts/messages.ts'
import type { RepairCheck } from '../verdicts/repair.ts'
import type { RepairVerdict } from '../verdicts/verdict-names.ts'
import type { Comparison } from './back-in-order.ts'
import type { RepairConclusion } from './conclusion.ts'
import { isOfBurns, type NamedFinding } from './finding.ts'
import { FINDINGS } from './findings/index.ts'
import type { RepairReason } from './words.ts'
import type { Work } from './work.ts'

export interface RepairInput {
  work: Work
  /** The captures' own check, cylinder by cylinder. */
  check: RepairCheck
  comparison: Comparison
  /** Whether anything was recorded after the work, and whether something said to be was left out as too early. */
  after: { captures: boolean; readings: boolean; tooEarly: boolean }
  /** The last word of the technician on the last repair. */
  saidNotFixed: boolean
}

/**
 * The repair judged from everything recorded after it. Confirmed needs a figure that carried the fault recorded again and
 * back, the cylinder's own wherever it was captured, and nothing that opposes it; the log alone can do it only for a side
 * that was never captured out of order. Readings not taken again are listed and do not oppose.
 */
export function concludeRepair(input: RepairInput): Omit<RepairConclusion, 'reason' | 'remarks'> {
  const { comparison } = input
  const supports = comparison.back
  const opposes = [...comparison.still.map((s) => s.is), ...comparison.appeared.map((a) => a.is)]
  const { verdict, why } = judged(input, supports, opposes)
  const fromCaptures = supports.some((f) => f.captures.length > 0)
  const none = verdict === 'not checked'
  return {
    verdict,
    why,
    restsOn:
      none || supports.length + opposes.length === 0
        ? 'nothing'
        : fromCaptures || opposes.some(isOfBurns)
          ? 'captures'
          : 'log',
    supports: none && why !== 'captures-missing' ? [] : ids(supports),
    opposes: ids(opposes),
    notReadAgain: ids(comparison.notReadAgain),
    left: leftOver(opposes),
  }
}

interface Judged {
  verdict: RepairVerdict
  why: RepairReason
}

function judged(
  { work, check, comparison, after, saidNotFixed }: RepairInput,
  supports: readonly NamedFinding[],
  opposes: readonly NamedFinding[],
): Judged {
  if (!work.onRecord) return { verdict: 'not checked', why: 'none' }
  if (!after.captures && !after.readings)
    return { verdict: 'not checked', why: after.tooEarly ? 'too-early' : 'nothing-after' }
  const worse = check.cylinders.some((c) => c.verdict === 'worse')
  if (worse || comparison.appeared.some(isWorse)) return { verdict: 'worse', why: 'worse' }
  const better = supports.length > 0 || comparison.still.some((s) => s.better)
  if (opposes.length > 0 || saidNotFixed) {
    if (better) return { verdict: 'improved, not in order', why: whyNotWhole(comparison) }
    if (comparison.still.length > 0) return { verdict: 'no change', why: 'no-change' }
  }
  const captured = [...supports, ...comparison.still.map((s) => s.was), ...comparison.notReadAgain].filter(
    isOfBurns,
  )
  const missing = comparison.notReadAgain.filter((f) => captured.includes(f) && f.order === 'out of order')
  if (missing.length > 0)
    return !check.comparable
      ? { verdict: 'not checked', why: 'not-comparable' }
      : { verdict: 'not checked', why: after.captures ? 'cylinder-not-judged' : 'captures-missing' }
  if (supports.length > 0 && opposes.length === 0 && !saidNotFixed)
    return { verdict: 'repair confirmed', why: supports.some(isOfBurns) ? 'confirmed' : 'confirmed-by-log' }
  return { verdict: 'not checked', why: 'not-read-again' }
}

/** What stands against calling better figures a mended engine. */
function whyNotWhole({ back, still, appeared }: Comparison): RepairReason {
  if (still.some((s) => isOfBurns(s.was))) return 'part-left'
  const freed = new Set(
    back.filter((f) => f.kind === 'circuit' || f.kind === 'misfire').flatMap((f) => f.where.cylinders),
  )
  const uncovered = appeared.some(
    ({ is }) => is.kind === 'mixture' && is.where.cylinders.some((c) => freed.has(c)),
  )
  return uncovered ? 'uncovered' : 'opposed'
}

const isWorse = ({ is, wasInOrder }: Comparison['appeared'][number]): boolean =>
  wasInOrder && FINDINGS[is.kind].newAfter === 'worse' && is.order === 'out of order'
const ids = (findings: readonly NamedFinding[]): string[] => findings.map((f) => f.id)
const leftOver = (opposes: readonly NamedFinding[]): number[] =>
  [...new Set(opposes.filter(isOfBurns).flatMap((f) => f.where.cylinders))].sort((a, b) => a - b)

/** The sentence of a reason. */
export const REASON_SAYS = {
  none: 'conclusion.repair.none',
  'nothing-after': 'conclusion.repair.nothing-after',
  'too-early': 'conclusion.repair.too-early',
  'not-comparable': 'conclusion.repair.not-comparable',
  'not-read-again': 'conclusion.repair.not-read-again',
  'captures-missing': 'conclusion.repair.captures-missing',
  'cylinder-not-judged': 'conclusion.repair.cylinder-not-judged',
  confirmed: 'conclusion.repair.confirmed',
  'confirmed-by-log': 'conclusion.repair.confirmed-by-log',
  opposed: 'conclusion.repair.opposed',
  'part-left': 'conclusion.repair.part-left',
  uncovered: 'conclusion.repair.uncovered',
  'no-change': 'conclusion.repair.no-change',
  worse: 'conclusion.repair.worse',
} as const satisfies Record<RepairReason, WordKey>
