import type { Step } from '../job/log-steps.ts'
import type { Sentence } from '../texts/messages.ts'
import type { Interval } from '../units/measured.ts'
import type { Fact } from './fact.ts'

export type { Step } from '../job/log-steps.ts'

export type Finding = 'response' | 'no response' | 'unclear' | 'in limits' | 'out of limits' | 'recorded'

/** A sentence to be said of a test. */
export type Says = Sentence

/** One test of the log (rows sharing `at` and step may make one test) with what it was found to mean. */
export interface TestFinding {
  /** ISO 8601 as written. */
  at: string
  step: Step
  place?: string
  stage: 'before' | 'after'
  condition?: string
  /** Lines of test-log.csv it came from. */
  lines: readonly number[]
  /** The readings as logged, in the order of the log. */
  readings: readonly {
    reading: string
    value?: number
    unit?: string
    expectedLow?: number
    expectedHigh?: number
    finding?: Finding
  }[]
  /** What was computed from them (lambda, total trim, kPa, ratio, change of speed), by name. */
  computed: Readonly<Record<string, Interval>>
  finding: Finding
  /** The deciding effect for tests.csv: e.g. change of speed in rpm, total trim in %, lambda. */
  effect?: Interval
  pValue?: number
  trace?: string
  fromS?: number
  toS?: number
  /** The technician's own words. */
  outcome?: string
  note?: string
  /** True where the finding rests on the technician's eye or ear alone. */
  observed: boolean
  says: readonly Says[]
  /** The same for weighing causes. Facts that need several tests stand with the last of them. */
  facts?: readonly Fact[]
}
