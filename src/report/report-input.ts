import type { ChartPlan } from '../charts/chart-plan.ts'
import type { DrawnTraces } from '../records/drawn-traces.ts'
import type { Result } from '../records/result.ts'
import type { Texts } from '../texts/messages.ts'
import type { Attachment } from './pdf/attachments.ts'
import type { Paper } from './theme.ts'

/** All that a report is made from. */
export interface ReportInput {
  result: Result
  traces: DrawnTraces
  /** The charts of result and traces, where they are at hand; otherwise they are made. */
  charts?: readonly ChartPlan[]
  texts: Texts
  attachments: readonly Attachment[]
  /** Bytes of each photo by its file name in the job. */
  photos: ReadonlyMap<string, Uint8Array>
  page: Paper
  /** Bytes of the shop's logo (PNG, JPEG or plain SVG), checked before. */
  logo?: Uint8Array
  /** Length of the signature readers show, bytes, where the report will carry one. */
  slotBytes?: number
}
