import type { Fact } from '../fact.ts'
import type { TestFinding } from '../findings.ts'
import { LEAK, outcomesOf, readOutcome } from '../outcome-words.ts'
import type { StepKind } from '../step-kind.ts'
import { recorded, type TestGroup } from '../test-group.ts'
import { saysPlace } from './observed.ts'

/** Smoke let into the intake: whether it came out at the place, as the technician saw. */
function readSmoke(group: TestGroup): TestFinding {
  const base = recorded(group)
  const answer = readOutcome(base.outcome, LEAK)
  if (answer === undefined)
    return { ...base, observed: base.outcome !== undefined, says: [saysPlace('tests.smoke.recorded', base)] }
  const leak = answer === 'yes'
  const fact: Fact = { kind: 'smoke', place: base.place ?? '', leak, stage: base.stage, sure: false }
  return {
    ...base,
    finding: leak ? 'response' : 'no response',
    observed: true,
    facts: [fact],
    says: [saysPlace(leak ? 'tests.smoke.leak' : 'tests.smoke.tight', base)],
  }
}

export const smoke: StepKind = {
  title: 'report.step.smoke',
  needs: { place: true },
  outcome: outcomesOf(LEAK, ['leak', 'no leak']),
  evidence: ['smoke-leak', 'smoke-none'],
  cautions: ['hot', 'vapour'],
  findings: { response: 'report.finding.smoke-response', 'no response': 'report.finding.smoke-no-response' },
  read: readSmoke,
}
