import { sentence } from '../../texts/messages.ts'
import type { Fact } from '../fact.ts'
import type { TestFinding } from '../findings.ts'
import { LEAK, outcomesOf, readOutcome } from '../outcome-words.ts'
import { bankIn } from '../place/read-words.ts'
import type { StepKind } from '../step-kind.ts'
import { recorded, type TestGroup } from '../test-group.ts'

/** Joints of the exhaust before the oxygen sensor, looked at and listened to from cold. @source shop-practice */
function readExhaustJoints(group: TestGroup): TestFinding {
  const base = recorded(group)
  const answer = readOutcome(base.outcome, LEAK)
  if (answer === undefined) return { ...base, says: [sentence('tests.exhaust-joints.recorded')] }
  const leaks = answer === 'yes'
  const bank = bankIn(group[0].place ?? '')
  const fact: Fact = {
    kind: 'part',
    evidence: leaks ? 'exhaust-joint-leaks' : 'exhaust-joints-tight',
    cylinders: [],
    ...(bank === undefined ? {} : { bank: Number(bank) }),
    place: base.place,
    fine: !leaks,
    stage: base.stage,
    sure: false,
  }
  return {
    ...base,
    observed: true,
    finding: leaks ? 'out of limits' : 'in limits',
    facts: [fact],
    says: [sentence(leaks ? 'tests.exhaust-joints.leaks' : 'tests.exhaust-joints.tight')],
  }
}

export const exhaustJoints: StepKind = {
  title: 'report.step.exhaust-joints',
  needs: {},
  outcome: outcomesOf(LEAK, ['leak', 'no leak']),
  evidence: ['exhaust-joint-leaks', 'exhaust-joints-tight'],
  cautions: ['hot', 'exhaust'],
  read: readExhaustJoints,
}
