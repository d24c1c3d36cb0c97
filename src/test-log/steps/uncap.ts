import type { TestFinding } from '../findings.ts'
import type { Fact } from '../fact.ts'
import { OPENED, outcomesOf, readOutcome } from '../outcome-words.ts'
import type { StepKind } from '../step-kind.ts'
import { recorded, type TestGroup } from '../test-group.ts'
import { saysPlace } from './observed.ts'

/** A port opened again: an engine that changes back says the same of it as one that changed when it was capped. */
function readUncap(group: TestGroup): TestFinding {
  const base = recorded(group)
  const answer = readOutcome(base.outcome, OPENED)
  if (answer === undefined) return { ...base, says: [saysPlace('tests.uncap.recorded', base)] }
  const changed = answer === 'yes'
  const fact: Fact = { kind: 'cap', place: base.place ?? '', changed, stage: base.stage, sure: false }
  return {
    ...base,
    finding: changed ? 'response' : 'no response',
    observed: true,
    facts: [fact],
    says: [saysPlace(changed ? 'tests.uncap.changed' : 'tests.uncap.unchanged', base)],
  }
}

export const uncap: StepKind = {
  title: 'report.step.uncap',
  needs: { place: true },
  outcome: outcomesOf(OPENED, ['response', 'no response'], false),
  evidence: ['cap-changed', 'cap-unchanged'],
  cautions: ['moving', 'hot'],
  read: readUncap,
}
