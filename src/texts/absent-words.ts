import type { AbsenceCode } from '../units/measured.ts'
import type { WordKey } from './messages.ts'

/** Why a figure is absent. */
export const ABSENT_WORDS: Readonly<Record<AbsenceCode, WordKey>> = {
  'too-short': 'report.absent.too-short',
  'no-spark-line': 'report.absent.no-spark-line',
  clipped: 'report.absent.clipped',
  'under-sampled': 'report.absent.under-sampled',
  partial: 'report.absent.partial',
  'not-recorded': 'report.absent.not-recorded',
  'no-next-event': 'report.absent.no-next-event',
  'not-visible': 'report.absent.not-visible',
  'too-few-events': 'report.absent.too-few-events',
  'ratio-unknown': 'report.absent.ratio-unknown',
  'not-applicable': 'report.absent.not-applicable',
}
