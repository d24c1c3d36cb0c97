import { expect, test } from 'vitest'
import { loadCauses } from '../../../src/limits/load-causes.ts'
import { weigh } from '../../../src/verdicts/causes/ledger.ts'
import { observe } from '../../../src/verdicts/causes/observation.ts'
import { causesInForce } from '../../../src/verdicts/causes/override.ts'
import { ruledOut } from '../../../src/verdicts/causes/ruled-out.ts'

// What a test of a part may rule out, and what it may not: common practice, no source.
const { table } = causesInForce(loadCauses())
const context = { table, engine: { cylinders: [1, 2, 3, 4], banks: undefined } }
const gone = (...seen: Parameters<typeof weigh>[0]) =>
  ruledOut(weigh(seen, context), context, undefined).map((r) => r.id)
const lean = observe('burn-all-lean')
const compression = (cylinders: readonly number[]) =>
  observe('compression-in-order', {
    at: { kind: 'cylinders', cylinders },
    args: { cylinders: cylinders.join(', ') },
  })

test('what all cylinders lean makes unlikely is not ruled out: two faults can be there at once', () =>
  expect(gone(lean)).toEqual([]))

test('compression in order on every cylinder rules out lost compression, and with it the timing of the valves', () =>
  expect(gone(lean, compression([1, 2, 3, 4]))).toEqual(['valve-timing', 'compression-loss']))

test('lost compression not where a cylinder was left out', () =>
  expect(gone(lean, compression([1, 2, 3]))).toEqual(['valve-timing']))

test('fuel pressure in order speaks of the fuel supply, and of nothing else', () =>
  expect(gone(lean, observe('fuel-pressure-in-order'))).toEqual(['fuel-pressure-high']))
