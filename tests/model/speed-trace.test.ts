import { expect, test } from 'vitest'
import { simulateSpeedTrace, type SpeedTraceParameters } from '../../src/model/speed-trace.ts'

const QUIET: SpeedTraceParameters = {
  seed: 1,
  durationS: 40,
  sampleHz: 20,
  rpm: 760,
  swingRpm: 0,
  swingHz: 0.6,
  driftRpm: 0,
  noiseRpm: 0,
  stepRpm: 1e-6,
  controlS: Infinity,
  sprays: [{ fromS: 10, toS: 14, responseRpm: 80, delayS: 0.7 }],
  blips: [],
}

test('nothing happens before the spray has reached the leak', () => {
  const { rpm } = simulateSpeedTrace(QUIET)
  expect(rpm.subarray(0, Math.floor(10.7 * 20)).every((v) => Math.abs(v - 760) < 1e-5)).toBe(true)
  expect(rpm[11.2 * 20]!).toBeGreaterThan(790)
})

test('without idle control a long spray reaches its full response', () => {
  const { sprays } = simulateSpeedTrace({ ...QUIET, sprays: [{ ...QUIET.sprays[0]!, toS: 20 }] })
  expect(sprays[0]!.peakRpm).toBeCloseTo(80, 3)
})

test('the idle control takes back the rise and the speed dips after the spray', () => {
  const { rpm, sprays } = simulateSpeedTrace({ ...QUIET, controlS: 4 })
  expect(sprays[0]!.peakRpm).toBeGreaterThan(45)
  expect(sprays[0]!.peakRpm).toBeLessThan(80)
  expect(Math.min(...rpm)).toBeLessThan(750)
})

test('the swing has the stated height and frequency', () => {
  const { rpm, sampleS } = simulateSpeedTrace({ ...QUIET, durationS: 200, sprays: [], swingRpm: 100 })
  expect(Math.max(...rpm)).toBeCloseTo(810, 0)
  const rises = rpm.filter((v, i) => i > 0 && rpm[i - 1]! < 760 && v >= 760).length
  expect(Math.abs(rises / (rpm.length * sampleS) - 0.6)).toBeLessThan(0.03)
})

test('a place that does not leak changes nothing', () => {
  const { responseRpm, sprays } = simulateSpeedTrace({
    ...QUIET,
    swingRpm: 60,
    noiseRpm: 5,
    sprays: [{ fromS: 10, toS: 14, responseRpm: 0, delayS: 1 }],
  })
  expect(responseRpm.every((v) => v === 0)).toBe(true)
  expect(sprays[0]).toMatchObject({ peakRpm: 0, meanRpm: 0 })
})

test('readings come in whole steps, and a blip is a blip', () => {
  const { rpm } = simulateSpeedTrace({ ...QUIET, noiseRpm: 8, stepRpm: 5, blips: [{ atS: 30, rpm: 600 }] })
  expect(rpm.every((v) => v % 5 === 0)).toBe(true)
  expect(Math.max(...rpm.subarray(600))).toBeGreaterThan(1250)
})
