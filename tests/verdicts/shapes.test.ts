import { describe, expect, test } from 'vitest'
import { withCylinders, type CaptureParameters } from '../../src/model/capture-parameters.ts'
import { DECOYS, type Decoy } from '../../src/model/decoys.ts'
import { judgeSimulated, type Judged } from '../support/judge-simulated.ts'

/** Eleven turns at the decoys' 780 rpm. */
const DURATION_S = 1.8

function judged(parameters: CaptureParameters): Judged {
  const outcome = judgeSimulated({ ...parameters, durationS: DURATION_S })
  if (outcome.refused) throw new Error(outcome.refused.join(' '))
  return outcome
}

// Truth: the model, which shares no code with the measuring chain.
describe.each(DECOYS.filter((d) => d.expect === 'level').map((d) => [d.name, d] as const))('%s', (_, decoy: Decoy) => {
  test('is no fault: every cylinder is level, and its late rise is the true one', () => {
    const { judged: cylinders, trueLateRisePct } = judged(decoy.parameters(3))
    expect(cylinders.map((c) => c.judgement.verdict)).toEqual(cylinders.map(() => 'level'))
    for (const { measures: { cylinder, figures: { lateRisePct } } } of cylinders) {
      // A quarter of the limit: what moves a figure by less turns no level cylinder into a fault.
      expect(lateRisePct.ok && Math.abs(lateRisePct.value - trueLateRisePct.get(cylinder)!)).toBeLessThan(5)
    }
  })

  test('hides no lean cylinder', () => {
    const { judged: cylinders } = judged(withCylinders(decoy.parameters(5), new Map([[1, { mixtureKv: 0.9 }]])))
    expect(cylinders.map((c) => c.judgement.verdict)).toEqual(cylinders.map((c) => (c.measures.cylinder === 1 ? 'lean' : 'level')))
  })
})

test.each(DECOYS.filter((d) => d.expect === 'refused').map((d) => [d.name, d] as const))('%s is refused', (_, decoy) => {
  expect(judgeSimulated({ ...decoy.parameters(3), durationS: DURATION_S })).toEqual({ refused: ['unsupported-ignition'] })
})
