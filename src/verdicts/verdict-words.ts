import type { WordKey } from '../texts/messages.ts'
import { ofVerdicts } from './kinds/index.ts'
import type { RepairVerdict, VerdictName } from './verdict-names.ts'

/** A cylinder's verdict in one or two words. */
export const VERDICT_WORDS: Readonly<Record<VerdictName, WordKey>> = ofVerdicts((v) => v.words)

/** What the check of a repair came to, in a few words. */
export const REPAIR_WORDS: Readonly<Record<RepairVerdict, WordKey>> = {
  'repair confirmed': 'report.repair.repair-confirmed',
  'improved, not in order': 'report.repair.improved-not-in-order',
  'no change': 'report.repair.no-change',
  worse: 'report.repair.worse',
  'not checked': 'report.repair.not-checked',
}
