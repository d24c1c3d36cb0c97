import { describe, expect, test } from 'vitest'
import { findEvents } from '../../src/ignition/find-events.ts'
import type { Engine } from '../../src/job/schema.ts'
import {
  distributorCapture,
  pairsOf,
  plugTopCapture,
  usualOrder,
  wastedSparkCapture,
  type CaptureParameters,
} from '../../src/model/capture-parameters.ts'
import { CONDITIONS, conditionCapture, RECORDERS } from '../support/conditions.ts'
import { DECOYS } from '../support/decoys.ts'
import { simulateCapture } from '../../src/model/simulate-capture.ts'
import { JobError } from '../../src/problems/problem.ts'
import { asCapture } from '../synthetic/as-capture.ts'
import { p95 } from '../support/score-events.ts'

/** Truth: this project's own physical model, which shares no code with the finding of events. */
function engineOf({ engine, ignition }: CaptureParameters): Engine {
  const kind =
    ignition.kind === 'wasted-spark'
      ? 'wasted-spark'
      : ignition.kind === 'distributor'
        ? 'distributor'
        : 'coil-per-cylinder'
  return {
    cylinders: engine.firingOrder.length,
    strokes: engine.strokes,
    firing_order: [...engine.firingOrder],
    ignition: kind,
    fuel: 'E0',
  }
}

/** An event is the true one when its breakdown lies this near: the crest of a wave without breakdown is broad. */
const SAME_S = 2e-4
const EDGE_S = 3e-4

function tried(parameters: CaptureParameters) {
  const simulated = simulateCapture(parameters)
  const capture = asCapture(simulated)
  const found = findEvents(capture, engineOf(parameters))
  const endS = capture.rows * capture.sampleS
  const inside = (t: number): boolean => t > EDGE_S && t < endS - EDGE_S
  const due = simulated.truth.events.filter((t) => inside(t.breakdownS))
  const pairs = due.map((t) => ({
    t,
    e: found.events.find((e) => e.channel === t.channel && Math.abs(e.breakdownS - t.breakdownS) < SAME_S),
  }))
  const matched = pairs.flatMap(({ t, e }) => (e ? [{ t, e }] : []))
  const whole = matched.filter(({ t, e }) => t.complete && !e.flags.includes('partial'))
  return {
    found,
    faults: {
      missed: pairs.filter(({ e }) => !e).length,
      extra: found.events.filter((e) => inside(e.breakdownS) && !matched.some((m) => m.e === e)).length,
      wrongCylinder: matched.filter(({ t, e }) => e.cylinder !== undefined && e.cylinder !== t.cylinder)
        .length,
      wrongKind: matched.filter(({ t, e }) => e.cylinder !== undefined && e.kind !== t.kind).length,
      sparkWithout: whole.filter(({ t, e }) => t.endS === undefined && e.endS !== undefined).length,
      lineLost: whole.filter(({ t, e }) => t.endS !== undefined && e.endS === undefined).length,
    },
    untold: matched.filter(({ e }) => e.cylinder === undefined).length,
    burnPct: whole
      .filter(({ t, e }) => t.endS !== undefined && e.endS !== undefined)
      .map(({ t, e }) => Math.abs((e.endS! - e.breakdownS) / (t.endS! - t.breakdownS) - 1) * 100)
      .sort((a, b) => a - b),
    restrikes: {
      due: whole.filter(({ t }) => t.restrikesS.length > 0).length,
      flagged: whole.filter(({ e }) => e.flags.includes('restrike')).length,
    },
  }
}
const NO_FAULTS = { missed: 0, extra: 0, wrongCylinder: 0, wrongKind: 0, sparkWithout: 0, lineLost: 0 }

describe.each(RECORDERS)('$name', ({ recorder }) => {
  const on = (parameters: CaptureParameters): CaptureParameters => ({ ...parameters, recorder })
  const order = (n: number) => usualOrder(n)
  test.each<[string, CaptureParameters]>([
    ['two cylinders', distributorCapture({ cylinders: 2, seed: 2, durationS: 1.5 })],
    ['five cylinders', distributorCapture({ cylinders: 5, seed: 5, durationS: 1.2 })],
    [
      'eight cylinders at 2500 rpm, where the coil never rests',
      distributorCapture({ cylinders: 8, seed: 8, durationS: 0.8, rpm: 2500 }),
    ],
    ['cranking', distributorCapture({ cylinders: 4, seed: 4, durationS: 2, rpm: 220 })],
    ['a coil on every plug of six', plugTopCapture({ cylinders: 6, seed: 6, durationS: 1 })],
    [
      'pairs, a pickup on every lead',
      wastedSparkCapture({ cylinders: 4, seed: 3, durationS: 1.5, on: 'leads' }),
    ],
    [
      'pairs, a pickup on a whole coil',
      wastedSparkCapture({ cylinders: 6, seed: 7, durationS: 2, on: 'coil', pairs: [pairsOf(order(6))[1]!] }),
    ],
    [
      'two strokes',
      ((p) => ({ ...p, engine: { ...p.engine, strokes: 2 as const } }))(
        distributorCapture({ cylinders: 3, seed: 9, durationS: 0.8 }),
      ),
    ],
  ])('%s', (_, parameters) => {
    const { faults, burnPct, untold, found } = tried(on(parameters))
    expect(faults).toEqual(NO_FAULTS)
    expect(untold).toBeLessThan(0.02 * found.events.length)
    expect(p95(burnPct)).toBeLessThan(recorder.sampleHz < 200_000 ? 2 : 1.5)
  })

  test.each(CONDITIONS.map((c) => [c.name, c] as const))('%s, gross', (name, condition) => {
    const { faults, burnPct } = tried(
      conditionCapture(condition.severities[2], name, { recorder, seed: 21, durationS: 1 }),
    )
    expect(faults).toEqual(NO_FAULTS)
    expect(p95(burnPct)).toBeLessThan(recorder.sampleHz < 200_000 ? 2 : 1.5)
  })
})

describe('shapes that fool a reader', () => {
  test.each(DECOYS.filter((d) => d.expect === 'level').map((d) => [d.name, d] as const))('%s', (_, decoy) => {
    const { faults, burnPct } = tried(decoy.parameters(3))
    expect(faults).toEqual(NO_FAULTS)
    expect(p95(burnPct)).toBeLessThan(1.5)
  })

  test.each(DECOYS.filter((d) => d.expect === 'refused').map((d) => [d.name, d] as const))(
    '%s is refused by name',
    (name, decoy) => {
      const parameters = decoy.parameters(3)
      const capture = asCapture(simulateCapture(parameters))
      const problems = (): unknown => {
        try {
          return findEvents(capture, engineOf(parameters))
        } catch (error) {
          if (error instanceof JobError)
            return error.problems.map((p) => [p.code, 'why' in p.args ? p.args.why : ''])
          throw error
        }
      }
      expect(problems()).toEqual([['unsupported-ignition', name.replace(' ', '-')]])
    },
  )

  test('restrikes are flagged where they are, and hash is not taken for them', () => {
    const decoy = (name: string) => tried(DECOYS.find((d) => d.name === name)!.parameters(3)).restrikes
    const { due, flagged } = decoy('restrikes within an event')
    expect(due).toBeGreaterThan(20)
    expect(Math.abs(flagged - due)).toBeLessThan(0.1 * due)
    expect(decoy('turbulence hash').flagged).toBe(0)
  })
})
