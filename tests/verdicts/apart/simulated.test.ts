import { describe, expect, test } from 'vitest'
import { IDLE_GAP } from '../../../src/model/cylinder-state.ts'
import {
  distributorCapture,
  plugTopCapture,
  wastedSparkCapture,
  withCylinders,
  type CaptureParameters,
} from '../../../src/model/capture-parameters.ts'
import { GOOD_RECORDER, POOR_RECORDER } from '../../../src/model/recorder.ts'
import { judgeSimulated } from '../../support/judge-simulated.ts'

const apart = (parameters: CaptureParameters): string[] => {
  const outcome = judgeSimulated(parameters)
  if (outcome.refused) throw new Error(outcome.refused.join(' '))
  return outcome.judged.map((j) => j.apart.map((a) => `${a.figure} ${a.direction} ${a.against}`).join(', '))
}
const four = (seed: number) => distributorCapture({ cylinders: 4, seed, durationS: 2.2 })

// Truth is what was put into the simulation.
describe('through the whole chain', () => {
  test('a worn plug', () => {
    const worn = withCylinders(four(5), new Map([[3, { gap: { ...IDLE_GAP, gapMm: 1.9 } }]]))
    expect(apart(worn)[2]).toMatch(/^firing_kv high/)
  })
  test('a cracked plug', () => {
    const cracked = withCylinders(four(6), new Map([[2, { breakdownFactor: 0.45 }]]))
    expect(apart(cracked)[1]).toMatch(/^firing_kv low/)
  })
  test.each<[string, CaptureParameters]>([
    ['distributor', four(7)],
    ['distributor, 100 kS/s and 8 bits', { ...four(8), recorder: POOR_RECORDER }],
    ['a coil on every plug', plugTopCapture({ cylinders: 4, seed: 9, durationS: 2.2 })],
    [
      'wasted spark, a pickup on each lead',
      wastedSparkCapture({ cylinders: 4, seed: 10, durationS: 2.2, on: 'leads' }),
    ],
    [
      'wasted spark, across the coils',
      wastedSparkCapture({ cylinders: 4, seed: 11, durationS: 2.2, on: 'coil' }),
    ],
    [
      'eight cylinders, turbulent',
      { ...distributorCapture({ cylinders: 8, seed: 12, durationS: 2.2 }), recorder: GOOD_RECORDER },
    ],
  ])('nothing on an engine in order: %s', (_, parameters) => {
    expect(apart(parameters).filter((a) => a !== '')).toEqual([])
  })
})
