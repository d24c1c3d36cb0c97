import type { Fact } from '../fact.ts'
import type { TestFinding } from '../findings.ts'
import { CAPPED, outcomesOf, readOutcome } from '../outcome-words.ts'
import type { StepKind } from '../step-kind.ts'
import { recorded, type TestGroup } from '../test-group.ts'
import { saysPlace } from './observed.ts'

/** A port closed off, by what the technician saw: an engine that changes drew air through it. */
function readCap(group: TestGroup): TestFinding {
  const base = recorded(group)
  const answer = readOutcome(base.outcome, CAPPED)
  if (answer === undefined)
    return { ...base, observed: base.outcome !== undefined, says: [saysPlace('tests.cap.recorded', base)] }
  const changed = answer === 'yes'
  const fact: Fact = { kind: 'cap', place: base.place ?? '', changed, stage: base.stage, sure: false }
  return {
    ...base,
    finding: changed ? 'response' : 'no response',
    observed: true,
    facts: [fact],
    says: [saysPlace(changed ? 'tests.cap.changed' : 'tests.cap.unchanged', base)],
  }
}

export const cap: StepKind = {
  title: 'report.step.cap',
  needs: { place: true },
  outcome: outcomesOf(CAPPED, ['response', 'no response', 'fixed', 'not fixed'], false),
  evidence: ['cap-changed', 'cap-unchanged'],
  cautions: ['moving', 'hot'],
  read: readCap,
}
