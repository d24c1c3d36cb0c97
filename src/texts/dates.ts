import type { Texts, WordKey } from './messages.ts'
import { say } from './say.ts'

const MONTHS: readonly WordKey[] = [
  'report.month.1',
  'report.month.2',
  'report.month.3',
  'report.month.4',
  'report.month.5',
  'report.month.6',
  'report.month.7',
  'report.month.8',
  'report.month.9',
  'report.month.10',
  'report.month.11',
  'report.month.12',
]

/** Name of a month. @param month  1 to 12, or the two digits of an ISO date */
export const monthName = (texts: Texts, month: number | string): string =>
  say(texts, MONTHS[Number(month) - 1]!)
