import type { Step } from '../job/log-steps.ts'

/** One row of the log, its cells read into words and numbers. */
export interface LogEntry {
  line: number
  at: string
  step: Step
  place?: string
  stage: 'before' | 'after'
  condition?: string
  reading?: string
  value?: number
  unit?: string
  expectedLow?: number
  expectedHigh?: number
  trace?: string
  fromS?: number
  toS?: number
  outcome?: string
  note?: string
}
