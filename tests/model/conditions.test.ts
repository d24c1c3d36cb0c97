import { describe, expect, test } from 'vitest'
import {
  AFFECTED_CYLINDER,
  conditionCapture,
  CONDITIONS,
  RECORDERS,
  type Severity,
} from '../support/conditions.ts'
import { DECOYS } from '../support/decoys.ts'
import { simulateCapture } from '../../src/model/simulate-capture.ts'
import type { EventTruth } from '../../src/model/truth.ts'

const truthOf = (name: string, severity: Severity): EventTruth[] =>
  simulateCapture(
    conditionCapture(severity, name, { recorder: { ...RECORDERS[1]!.recorder, sampleHz: 20_000 }, seed: 21 }),
  ).truth.events.filter((e) => e.cylinder === AFFECTED_CYLINDER)
const median = (values: number[]): number => values.sort((a, b) => a - b)[Math.floor(values.length / 2)]!
const lateRise = (events: EventTruth[]): number =>
  median(events.flatMap((e) => (e.levels === undefined ? [] : [e.levels.lateRisePct])))

test('at least 12 conditions of 3 severities on 2 recorders, each by its own name', () => {
  expect(CONDITIONS.length).toBeGreaterThanOrEqual(12)
  expect(new Set(CONDITIONS.map((c) => c.name)).size).toBe(CONDITIONS.length)
  expect(RECORDERS).toHaveLength(2)
})

describe.each(CONDITIONS.map((c) => [c.name, c] as const))('%s', (name, condition) => {
  const severities = condition.severities.map((severity) => truthOf(name, severity))
  test('the true shape is what the condition claims', () => {
    const wanted = condition.severities[0].accept[0]!
    for (const events of severities) {
      if (wanted === 'level') expect(Math.abs(lateRise(events))).toBeLessThan(15)
      if (wanted === 'lean') expect(lateRise(events)).toBeGreaterThan(15)
      if (wanted === 'falling') expect(lateRise(events)).toBeLessThan(-15)
      if (wanted === 'external resistance')
        expect(median(events.map((e) => e.levels!.startKv))).toBeGreaterThan(2.4)
      if (wanted === 'open secondary')
        expect(events.some((e) => e.outcome === 'open' || e.outcome === 'no-breakdown')).toBe(true)
    }
    if (wanted === 'lean' || wanted === 'falling') {
      expect(Math.abs(lateRise(severities[2]!))).toBeGreaterThan(40)
      expect(Math.abs(lateRise(severities[0]!))).toBeLessThan(Math.abs(lateRise(severities[2]!)))
    }
  })
})

describe('what sets look-alikes apart is in the model', () => {
  const of = (name: string, severity: number): EventTruth[] =>
    truthOf(name, CONDITIONS.find((c) => c.name === name)!.severities[severity]!)
  test('low compression fires low and burns long; rich fires as usual', () => {
    const healthy = median(of('healthy', 1).map((e) => e.firingKv))
    expect(median(of('low compression', 2).map((e) => e.firingKv))).toBeLessThan(0.75 * healthy)
    expect(median(of('rich', 2).map((e) => e.firingKv))).toBeGreaterThan(0.9 * healthy)
    expect(median(of('low compression', 2).map((e) => e.levels!.burnMs))).toBeGreaterThan(
      median(of('rich', 2).map((e) => e.levels!.burnMs)),
    )
  })
  test('outside resistance starts high and burns short; a worn plug fires high and stays level', () => {
    const resisted = of('outside resistance', 1)
    expect(median(resisted.map((e) => e.levels!.earlySlopeKvPerMs))).toBeLessThan(-1)
    expect(median(resisted.map((e) => e.levels!.burnMs))).toBeLessThan(1.2)
    expect(median(of('worn plug', 2).map((e) => e.firingKv))).toBeGreaterThan(14)
  })
})

describe('decoys', () => {
  test('every decoy is healthy in truth', () => {
    for (const decoy of DECOYS) {
      const { truth } = simulateCapture({ ...decoy.parameters(2), durationS: 0.6 })
      expect(truth.events.length).toBeGreaterThan(5)
      const firing = truth.events.filter((e) => e.kind === 'firing' && e.levels !== undefined)
      if (decoy.expect === 'level')
        expect(Math.abs(median(firing.map((e) => e.levels!.lateRisePct)))).toBeLessThan(12)
    }
  })
  test('a capacitor discharge swings to both sides and is over in a fraction of a millisecond', () => {
    const capture = simulateCapture({
      ...DECOYS.find((d) => d.name === 'capacitor discharge')!.parameters(1),
      durationS: 0.3,
    })
    const first = capture.truth.events.find((e) => e.complete)!
    expect((first.endS! - first.breakdownS) * 1e3).toBeLessThan(0.4)
    const from = Math.floor(first.breakdownS / capture.sampleS)
    expect(Math.min(...capture.channels[0]!.clean.subarray(from, from + 100))).toBeLessThan(-1)
  })
  test('multi-strike sparks three times an ignition', () => {
    const { truth } = simulateCapture({
      ...DECOYS.find((d) => d.name === 'multi-strike')!.parameters(1),
      durationS: 0.6,
    })
    const first = truth.events.filter((e) => e.cylinder === 1).slice(0, 3)
    expect(first.map((e) => e.strike).sort()).toEqual([0, 1, 2])
  })
})
