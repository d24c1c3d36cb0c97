import { join } from 'node:path'
import type { JobOutcome } from '../batch/job-outcome.ts'
import { readRegularText } from '../files/regular-file.ts'
import type { Result } from '../records/result.ts'

type EngineClass = Result['conclusion']['now']['class']

/** States of the engine as it is now that a script may fail on, each with the graver ones. */
const CLASSES = {
  fault: ['fault'],
  suspected: ['fault', 'suspected'],
  'not-known': ['fault', 'suspected', 'not known'],
} as const satisfies Record<string, readonly EngineClass[]>

export type FailOn = keyof typeof CLASSES
export const FAIL_ON = Object.keys(CLASSES) as FailOn[]

/** Work orders whose engine is in the state of the rule, or a graver one, by the results that were written or still stand. */
export const failedBy = (rule: FailOn, outcomes: readonly JobOutcome[]): string[] =>
  outcomes.flatMap((outcome) =>
    outcome.state === 'reported' && fails(rule, readRegularText(join(outcome.output, 'result.json')))
      ? [outcome.workOrder]
      : [],
  )

/** Whether a result.json meets the rule. */
function fails(rule: FailOn, resultJson: string): boolean {
  const { conclusion } = JSON.parse(resultJson) as Pick<Result, 'conclusion'>
  return (CLASSES[rule] as readonly EngineClass[]).includes(conclusion.now.class)
}
