import { ANSWER, outcomesOf, readOutcome } from '../outcome-words.ts'
import { oneOf, type StepKind } from '../step-kind.ts'
import { recorded, type TestGroup } from '../test-group.ts'
import type { TestFinding } from '../findings.ts'
import { saysPlace } from './observed.ts'

/** A spray without a trace, by what the technician saw or heard; one on a trace is judged in spray/. */
function readSpray(group: TestGroup): TestFinding {
  const base = recorded(group)
  switch (readOutcome(base.outcome, ANSWER)) {
    case 'yes':
      return {
        ...base,
        observed: true,
        finding: 'response',
        says: [saysPlace('tests.spray.observed-response', base)],
      }
    case 'no':
      return {
        ...base,
        observed: true,
        finding: 'no response',
        says: [saysPlace('tests.spray.observed-no-response', base)],
      }
    case undefined:
      return { ...base, observed: true, says: [saysPlace('tests.spray.observed-recorded', base)] }
  }
}

export const spray: StepKind = {
  title: 'report.step.spray',
  needs: { place: true },
  readings: oneOf(['starting-fluid', 'propane'], () => []),
  outcome: outcomesOf(ANSWER, ['response', 'no response']),
  evidence: [
    'spray-response',
    'spray-silent',
    'isolation-itself',
    'isolation-spared',
    'isolation-through',
    'isolation-not-itself',
  ],
  cautions: ['spray', 'vapour', 'moving', 'hot'],
  read: readSpray,
}
