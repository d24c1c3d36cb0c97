import { describe, expect, test } from 'vitest'
import { judge } from '../../../src/chain/phases/judge.ts'
import type { MeasuredCapture } from '../../../src/chain/phases/measure-captures.ts'
import { loadLimits } from '../../../src/limits/limits.ts'
import {
  distributorCapture,
  plugTopCapture,
  type CaptureParameters,
} from '../../../src/model/capture-parameters.ts'
import type { Recorder } from '../../../src/model/recorder.ts'
import { measureStage } from '../../support/repair-trials.ts'

const plain = distributorCapture({ cylinders: 4, seed: 5, durationS: 2.2 })
/** Fast enough to see the tops: of a firing voltage known from below alone there is no shift. */
const recorder: Recorder = { ...plain.recorder, sampleHz: 1_000_000 }
const engine: CaptureParameters = { ...plain, recorder }
const repairOf = (captures: readonly MeasuredCapture[]) =>
  judge(captures, { compression: new Map(), ignition: 'distributor', limits: loadLimits() }).repair
const conditionsOf = (captures: readonly MeasuredCapture[]) => repairOf(captures).conditions.map((c) => c.key)

const before = measureStage(engine, 'before')
const again = measureStage({ ...engine, seed: 6 }, 'after')
const entered = (change: Partial<MeasuredCapture['entry']>): MeasuredCapture => ({
  ...again,
  entry: { ...again.entry, ...change },
})

describe('what changed between two simulated recordings is found, and limits what is said', () => {
  test('nothing: nothing said, every shift shown', () => {
    const { conditions, cylinders } = repairOf([before, again])
    expect(conditions).toEqual([])
    expect(cylinders.flatMap((c) => Object.values(c.shifts).map((s) => s.ok))).toEqual(
      Array.from({ length: 16 }, () => true),
    )
  })
  test.each([
    ['sample rate', { ...recorder, sampleHz: 100_000 }, 'conditions.rate'],
    ['steps', { ...recorder, secondary: { ...recorder.secondary, bits: 10 } }, 'conditions.steps'],
  ] as const)('a recorder of another %s: no shift in kV, the relative ones stay', (_, other, key) => {
    const { conditions, cylinders } = repairOf([
      before,
      measureStage({ ...engine, recorder: other }, 'after'),
    ])
    expect(conditions.map((c) => c.key)).toContain(key)
    expect(cylinders.map((c) => [c.shifts['firingKv']!.ok, c.shifts['lateRisePct']!.ok])).toEqual(
      cylinders.map(() => [false, true]),
    )
  })
  test('another scale of the pickup: no shift in kV', () => {
    const { conditions, cylinders } = repairOf([
      before,
      entered({ channels: again.entry.channels.map((c) => ({ ...c, scale: 2 })) }),
    ])
    expect(conditions.map((c) => c.key)).toEqual(['conditions.pickup'])
    expect(cylinders.every((c) => !c.shifts['midKv']!.ok)).toBe(true)
  })
  test('a cold engine after: not checked', () => {
    const { conditions, verdict } = repairOf([before, entered({ engine: 'cold' })])
    expect([conditions.map((c) => c.key), verdict]).toEqual([['conditions.engine'], 'not checked'])
  })
  test('a faster idle after: not checked', () => {
    const faster = { ...engine, engine: { ...engine.engine, speed: { ...engine.engine.speed, rpm: 1050 } } }
    const { conditions, verdict } = repairOf([before, measureStage(faster, 'after')])
    expect([conditions.map((c) => c.key), verdict]).toEqual([['conditions.speed'], 'not checked'])
  })
})

test('a capture a cylinder: a change in any of them is found, not only in that of the first', () => {
  const one = (cylinder: number, stage: 'before' | 'after') => {
    const made = plugTopCapture({ cylinders: 4, seed: 10 + cylinder, durationS: 2.2, recorded: [cylinder] })
    return measureStage({ ...made, recorder }, stage, `captures/${cylinder}-${stage}.csv`)
  }
  const cold = one(3, 'after')
  const captures = [
    one(1, 'before'),
    one(3, 'before'),
    one(1, 'after'),
    { ...cold, entry: { ...cold.entry, engine: 'cold' as const } },
  ]
  expect(conditionsOf(captures)).toEqual(['conditions.engine'])
})
