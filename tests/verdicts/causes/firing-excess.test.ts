import { expect, test } from 'vitest'
import type { CylinderMeasures } from '../../../src/metrics/figures.ts'
import { firingExcessKv } from '../../../src/verdicts/causes/firing-excess.ts'

const cylinder = (kv: number | undefined) =>
  ({
    figures: {
      firingKv:
        kv === undefined
          ? { ok: false, why: 'clipped' }
          : { ok: true, value: kv, low: kv - 0.5, high: kv + 0.7, unit: 'kV', mad: 0, n: 50, budget: [] },
    },
  }) as unknown as CylinderMeasures

test('the value and both ends are set against the median of the others', () => {
  expect(firingExcessKv(cylinder(14), [cylinder(8), cylinder(9), cylinder(20)])).toEqual({
    ok: true,
    interval: { value: 5, low: 4.5, high: expect.closeTo(5.7, 9) as number, unit: 'kV' },
  })
})

test('one other with a figure is no measure, and no figure is no excess', () => {
  expect(firingExcessKv(cylinder(14), [cylinder(8), cylinder(undefined)])).toEqual({
    ok: false,
    why: 'not-applicable',
  })
  expect(firingExcessKv(cylinder(undefined), [cylinder(8), cylinder(9)])).toMatchObject({
    ok: false,
    why: 'clipped',
  })
})
