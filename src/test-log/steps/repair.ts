import type { Fact } from '../fact.ts'
import type { Says, TestFinding } from '../findings.ts'
import { MENDED, outcomesOf, readOutcome } from '../outcome-words.ts'
import type { StepKind } from '../step-kind.ts'
import { recorded, type TestGroup } from '../test-group.ts'
import { saysPlace } from './observed.ts'

/** What was repaired, and what the technician says became of the fault. */
function readRepair(group: TestGroup): TestFinding {
  const base = recorded(group)
  const read = readOutcome(base.outcome, MENDED)
  const outcome = read === 'done' ? undefined : read
  const fact: Fact = { kind: 'repair', place: base.place ?? '', outcome, stage: base.stage, sure: false }
  const says: Says =
    outcome === 'fixed'
      ? saysPlace('tests.repair.fixed', base)
      : outcome === 'not fixed'
        ? saysPlace('tests.repair.not-fixed', base)
        : saysPlace('tests.repair.done', base)
  return { ...base, observed: outcome !== undefined, facts: [fact], says: [says] }
}

export const repair: StepKind = {
  title: 'report.step.repair',
  needs: { place: true },
  outcome: outcomesOf(MENDED, ['fixed', 'not fixed'], false),
  evidence: [
    'repair-confirmed',
    'repair-confirmed-by-log',
    'work-done',
    'repair-improved',
    'repair-without-effect',
    'repair-word-fixed',
    'repair-word-not-fixed',
  ],
  cautions: ['high-voltage', 'moving', 'hot'],
  read: readRepair,
}
