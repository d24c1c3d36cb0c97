import { expect, test } from 'vitest'
import { loadLimits } from '../../../src/limits/limits.ts'
import { absent } from '../../../src/units/measured.ts'
import { burnShort } from '../../../src/verdicts/gates/burn-short.ts'
import type { GateInput } from '../../../src/verdicts/gates/define-gate.ts'

/** 0.8 to 2.2 ms are usual: shop practice, common practice without a source; 0.6 ms: this project's judgement. */
const limits = loadLimits()
const said = (burnsMs: readonly (number | undefined)[], condition = 'idle', rpm = 800) =>
  burnShort.look(
    {
      entry: { condition, engine: 'warm' },
      engine: { strokes: 4 },
      speed: { mean: { ok: true, value: rpm } },
      cylinders: burnsMs.map((ms) => ({
        figures: {
          burnMs: ms === undefined ? absent('no-spark-line') : { ok: true, value: ms, high: ms + 0.02 },
        },
      })),
    } as unknown as GateInput,
    limits,
  )

test.each<[string, readonly (number | undefined)[], boolean]>([
  ['all short and alike', [0.7, 0.68, 0.74, 0.66], true],
  ['one that burns as long as is usual', [0.7, 0.68, 0.74, 1.2], false],
  ['so short that it is a finding', [0.5, 0.48, 0.52, 0.5], false],
  ['as usual', [1.2, 1.3, 1.25, 1.3], false],
  ['one without a spark line', [0.7, undefined, 0.72, 0.7], true],
  ['no spark line at all', [undefined, undefined], false],
])('%s', (_, burnsMs, remarked) => {
  const remarks = said(burnsMs)
  expect(remarks.length).toBe(remarked ? 1 : 0)
  for (const { forbids, args } of remarks) {
    expect(forbids).toEqual([])
    expect(args).toMatchObject({ lowMs: 0.8, highMs: 2.2 })
  }
})

test('off idle burns are shorter by themselves', () => expect(said([0.7, 0.7], '2500 rpm', 2500)).toEqual([]))
