import { sentence } from '../../texts/messages.ts'
import type { Fact } from '../fact.ts'
import type { TestFinding } from '../findings.ts'
import { outcomesOf, partState, readOutcome } from '../outcome-words.ts'
import { bankIn } from '../place/read-words.ts'
import { oneOf, type StepKind } from '../step-kind.ts'
import { recorded, type TestGroup } from '../test-group.ts'

const OUTCOMES = partState(
  {
    misleads: [
      'misleads',
      'biased',
      'stuck',
      'slow',
      'lazy',
      'dead',
      'no response',
      'does not follow',
      'does not switch',
      'stays lean',
      'stays rich',
      'flat',
      'trage',
      'tot',
      'folgt nicht',
      'hangt',
      'lent*',
      'mort*',
      'ne suit pas',
      'figee',
      'bloque*',
      'lent*',
      'muert*',
      'no sigue',
      'no responde',
      'pegad*',
    ],
  },
  {
    fine: [
      'follow*',
      'switch*',
      'response',
      'respond*',
      'react*',
      'folgt',
      'schaltet',
      'suit',
      'commute',
      'reagi*',
      'sigue',
      'conmuta',
      'responde',
      'yes',
    ],
  },
)

/**
 * The oxygen sensor, tried with a little propane and a little air: whether its signal follows.
 *
 * @source shop-practice
 */
function readOxygenSensor(group: TestGroup): TestFinding {
  const base = recorded(group)
  const state = readOutcome(base.outcome, OUTCOMES)
  const [row] = group
  const bank = Number(/^bank (\d)$/.exec(row.reading ?? '')?.[1] ?? bankIn(row.place ?? '') ?? Number.NaN)
  if (state === undefined) return { ...base, says: [sentence('tests.oxygen-sensor.recorded')] }
  const fine = state === 'in order'
  const fact: Fact = {
    kind: 'part',
    evidence: fine ? 'oxygen-sensor-follows' : 'oxygen-sensor-misleads',
    cylinders: [],
    ...(Number.isNaN(bank) ? {} : { bank }),
    place: base.place,
    fine,
    stage: base.stage,
    sure: false,
  }
  return {
    ...base,
    observed: true,
    finding: fine ? 'in limits' : 'out of limits',
    facts: [fact],
    says: [sentence(fine ? 'tests.oxygen-sensor.follows' : 'tests.oxygen-sensor.misleads')],
  }
}

export const oxygenSensor: StepKind = {
  title: 'report.step.oxygen-sensor',
  needs: {},
  readings: oneOf(['bank 1', 'bank 2'], () => []),
  outcome: outcomesOf(OUTCOMES, ['follows', 'misleads']),
  evidence: ['oxygen-sensor-follows', 'oxygen-sensor-misleads'],
  cautions: ['spray', 'vapour', 'hot', 'exhaust'],
  read: readOxygenSensor,
}
