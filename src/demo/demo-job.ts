import type { z } from 'zod'
import type { jobSchema } from '../job/schema.ts'
import type { CaptureParameters } from '../model/capture-parameters.ts'
import type { SpeedTraceParameters } from '../model/speed-trace.ts'
import type { Step } from '../test-log/findings.ts'
import type { FileStyle } from './capture-file.ts'

/** A job as job.yaml states it. */
export type JobText = z.input<typeof jobSchema>

/** One row of test-log.csv; what is absent stays an empty cell. */
export interface LogLine {
  at: string
  step: Step
  place?: string
  stage?: 'before' | 'after'
  condition?: string
  reading?: string
  value?: number
  unit?: string
  expected_low?: number
  expected_high?: number
  trace?: string
  from_s?: number
  to_s?: number
  outcome?: string
  note?: string
}

/** A whole demo job before it is written. Everything in it is invented. */
export interface DemoJob {
  folder: string
  job: JobText
  log: readonly LogLine[]
  /** File inside the folder -> what is recorded there and how it is written. */
  captures: ReadonlyMap<string, { parameters: CaptureParameters; style: FileStyle }>
  traces: ReadonlyMap<string, SpeedTraceParameters>
}
