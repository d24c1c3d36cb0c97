import type { WordKey } from '../texts/messages.ts'
import type { RepairVerdict, VerdictName } from './verdict-names.ts'

/** A cylinder's verdict in one or two words. */
export const VERDICT_WORDS: Readonly<Record<VerdictName, WordKey>> = {
  level: 'chart.verdict.level',
  lean: 'chart.verdict.lean',
  falling: 'chart.verdict.falling',
  rich: 'chart.verdict.rich',
  'low compression': 'chart.verdict.low-compression',
  borderline: 'chart.verdict.borderline',
  'external resistance': 'chart.verdict.external-resistance',
  'open secondary': 'chart.verdict.open-secondary',
  misfiring: 'chart.verdict.misfiring',
  'not judged': 'chart.verdict.not-judged',
}

/** What the check of a repair came to, in a few words. */
export const REPAIR_WORDS: Readonly<Record<RepairVerdict, WordKey>> = {
  'repair confirmed': 'report.repair.repair-confirmed',
  'improved, not in order': 'report.repair.improved-not-in-order',
  'no change': 'report.repair.no-change',
  worse: 'report.repair.worse',
  'not checked': 'report.repair.not-checked',
}
