import type { DrawnTraces } from '../records/drawn-traces.ts'
import type { Result } from '../records/result.ts'
import type { Texts } from '../texts/messages.ts'
import type { Attachment } from './pdf/attachments.ts'
import type { Paper } from './theme.ts'

/** All that a report is made from. */
export interface ReportInput {
  result: Result
  traces: DrawnTraces
  texts: Texts
  attachments: readonly Attachment[]
  /** Bytes of each photo by its file name in the job. */
  photos: ReadonlyMap<string, Uint8Array>
  page: Paper
}
