import { describe, expect, test } from 'vitest'
import {
  distributorCapture,
  wastedSparkCapture,
  withCylinders,
  type CaptureParameters,
} from '../../src/model/capture-parameters.ts'
import { DECOYS, type Decoy } from '../support/decoys.ts'
import { judgeSimulated, type Judged } from '../support/judge-simulated.ts'

/** Eleven turns at the decoys' 780 rpm. */
const DURATION_S = 1.8

function judged(parameters: CaptureParameters): Judged {
  const outcome = judgeSimulated({ ...parameters, durationS: DURATION_S })
  if (outcome.refused) throw new Error(outcome.refused.join(' '))
  return outcome
}

// Truth: the model, which shares no code with the measuring chain.
describe.each(DECOYS.filter((d) => d.expect === 'level').map((d) => [d.name, d] as const))(
  '%s',
  (_, decoy: Decoy) => {
    test('is no fault: every cylinder is level, and its late rise is the true one', () => {
      const { judged: cylinders, trueLateRisePct } = judged(decoy.parameters(3))
      expect(cylinders.map((c) => c.judgement.verdict)).toEqual(cylinders.map(() => 'level'))
      for (const {
        measures: {
          cylinder,
          figures: { lateRisePct },
        },
      } of cylinders) {
        // A quarter of the limit: what moves a figure by less turns no level cylinder into a fault.
        expect(lateRisePct.ok && Math.abs(lateRisePct.value - trueLateRisePct.get(cylinder)!)).toBeLessThan(5)
      }
    })

    test('hides no lean cylinder', () => {
      const { judged: cylinders } = judged(
        withCylinders(decoy.parameters(5), new Map([[1, { mixtureKv: 0.9 }]])),
      )
      expect(cylinders.map((c) => c.judgement.verdict)).toEqual(
        cylinders.map((c) => (c.measures.cylinder === 1 ? 'lean' : 'level')),
      )
    })
  },
)

test.each(DECOYS.filter((d) => d.expect === 'refused').map((d) => [d.name, d] as const))(
  '%s is refused',
  (_, decoy) => {
    expect(judgeSimulated({ ...decoy.parameters(3), durationS: DURATION_S })).toEqual({
      refused: ['unsupported-ignition'],
    })
  },
)

test('an open lead of a pair: open where the voltage stands, misfiring on its partner, which gets no current', () => {
  const parameters = wastedSparkCapture({ cylinders: 4, seed: 1, durationS: DURATION_S, on: 'leads' })
  const { judged: cylinders } = judged(withCylinders(parameters, new Map([[1, { openShare: 1 }]])))
  expect(cylinders.map((c) => c.judgement.verdict)).toEqual(['open secondary', 'level', 'level', 'misfiring'])
})

test('a whole coil: the lean cylinder of a pair, not its partner; two healthy gaps in series are level', () => {
  const parameters = wastedSparkCapture({ cylinders: 4, seed: 1, durationS: DURATION_S, on: 'coil' })
  const { judged: cylinders } = judged(withCylinders(parameters, new Map([[1, { mixtureKv: 0.8 }]])))
  expect(cylinders.map((c) => c.judgement.verdict)).toEqual(['lean', 'level', 'level', 'level'])
})

test('a whole coil: the late rise given of a cylinder is the one it is judged by, and so are those of its events', () => {
  const parameters = wastedSparkCapture({ cylinders: 4, seed: 1, durationS: DURATION_S, on: 'coil' })
  const simulated = judgeSimulated(parameters)
  if (simulated.refused) throw new Error(simulated.refused.join())
  expect(simulated.remarks.map((r) => r.code)).toContain('whole-coil')
  for (const { measures, judgement } of simulated.judged) {
    const given = measures.figures.lateRisePct
    expect(given).toMatchObject({ ok: true })
    expect(judgement.reason.args['lateRisePct']).toMatchObject({ value: given.ok && given.value })
    // The sum of two healthy gaps falls by 8 % of its middle; the firing gap by itself keeps its height.
    expect(Math.abs(given.ok ? given.value : Infinity)).toBeLessThan(6)
    expect(measures.classShares.level).toBeGreaterThan(0.5)
  }
})

test('resistance outside every cylinder shows though no cylinder differs', () => {
  const parameters = distributorCapture({ cylinders: 4, seed: 1, durationS: DURATION_S })
  const { judged: cylinders } = judged(
    withCylinders(parameters, new Map([1, 2, 3, 4].map((c) => [c, { seriesKohm: 48 }]))),
  )
  expect(cylinders.map((c) => c.judgement.verdict)).toEqual(Array(4).fill('external resistance'))
})

test('two cylinders: resistance outside one of them is told from the other', () => {
  const parameters = distributorCapture({ cylinders: 2, seed: 1, durationS: DURATION_S })
  const { judged: cylinders } = judged(withCylinders(parameters, new Map([[1, { seriesKohm: 40 }]])))
  expect(cylinders.map((c) => c.judgement.verdict)).toEqual(['external resistance', 'level'])
})
