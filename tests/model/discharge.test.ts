import { describe, expect, test } from 'vitest'
import {
  capacitorMj,
  DISTRIBUTOR_COIL,
  inductorMj,
  secondaryHenry,
  secondaryStartA,
} from '../../src/model/coil.ts'
import { distributorCapture, wastedSparkCapture, withCylinders } from '../../src/model/capture-parameters.ts'
import { simulateCapture } from '../../src/model/simulate-capture.ts'

describe('open secondary', () => {
  const open = withCylinders(
    distributorCapture({ cylinders: 4, seed: 4, durationS: 0.5 }),
    new Map([[2, { openShare: 1 }]]),
  )
  const capture = simulateCapture(open)
  const event = capture.truth.events.find((e) => e.cylinder === 2 && e.complete)!
  const kv = capture.channels[0]!.clean

  test('no line, no end; the crest stays below what the coil energy could charge its capacitance to', () => {
    expect(event.outcome).toBe('open')
    expect(event.levels).toBeUndefined()
    expect(event.endS).toBeUndefined()
    // All crossed energy in the capacitance: 1/2 L I^2 = 1/2 C V^2.
    const coilMj = inductorMj(
      secondaryHenry(DISTRIBUTOR_COIL) * 1e3,
      secondaryStartA(DISTRIBUTOR_COIL, event.dwellMs / 1e3),
    )
    expect(capacitorMj(DISTRIBUTOR_COIL.secondaryPf, event.firingKv)).toBeLessThan(coilMj)
    expect(event.firingKv).toBeGreaterThan(25)
  })

  test('one tall half wave about 0.2 ms wide, then strong ringing', () => {
    const from = Math.round(event.switchOffS / capture.sampleS)
    const crossing = kv.subarray(from + 5).findIndex((v) => v < 0) + 5
    expect(crossing * capture.sampleS * 1e3).toBeGreaterThan(0.15)
    expect(crossing * capture.sampleS * 1e3).toBeLessThan(0.3)
    expect(Math.min(...kv.subarray(from, from + 500))).toBeLessThan(-15)
    expect(event.coilCycles).toBeGreaterThan(5)
  })
})

test('a higher firing voltage leaves less energy and a shorter burn', () => {
  const at = (breakdownFactor: number): number => {
    const parameters = distributorCapture({ cylinders: 4, seed: 4, durationS: 0.5 })
    const changed = withCylinders(
      parameters,
      new Map([[2, { breakdownFactor, breakdownScatter: 0, glowScatter: 0, mixtureScatterKv: 0 }]]),
    )
    return simulateCapture(changed).truth.events.find((e) => e.cylinder === 2 && e.complete)!.levels!.burnMs
  }
  expect(at(2.2)).toBeLessThan(at(1) - 0.05)
})

test('on a pair the wasted plug fires low, a little earlier, and falls; both go out together', () => {
  const { truth } = simulateCapture(
    wastedSparkCapture({ cylinders: 4, seed: 2, durationS: 0.5, on: 'leads', pairs: [[1, 4]] }),
  )
  const wasted = truth.events.find((e) => e.kind === 'wasted' && e.complete)!
  const firing = truth.events.find((e) => e.kind === 'firing' && e.switchOffS === wasted.switchOffS)!
  expect(wasted.breakdownS).toBeLessThan(firing.breakdownS)
  expect(wasted.endS).toBe(firing.endS)
  expect(wasted.firingKv).toBeLessThan(3)
  expect(wasted.levels!.lateRisePct).toBeLessThan(-12)
  expect(wasted.levels!.midKv).toBeLessThan(0.7 * firing.levels!.midKv)
})
