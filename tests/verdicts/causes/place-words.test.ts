import { expect, test } from 'vitest'
import { placeable } from '../../../src/verdicts/causes/candidates.ts'
import { readPlace } from '../../../src/verdicts/causes/place-words.ts'
import { table, v6 } from './case.ts'

/** Words of the trade for places; common practice, no source. */
test.each([
  ['throttle body gasket', 'spray-response', ['leak-throttle-body'], undefined, undefined],
  ['brake servo hose tee', 'spray-response', ['leak-brake-booster'], undefined, undefined],
  ['Brake booster hose', 'cap-changed', ['leak-brake-booster'], undefined, undefined],
  ['PCV valve hose', 'smoke-leak', ['leak-crankcase-ventilation'], undefined, undefined],
  ['intake manifold gasket bank 2', 'spray-response', ['leak-manifold'], undefined, '2'],
  ['intake manifold gasket', 'spray-response', ['leak-manifold'], undefined, undefined],
  ['intake manifold gasket cylinder 3', 'spray-response', ['leak-runner-joint'], 3, '1'],
  ['runner joint cyl. 4', 'spray-response', ['leak-runner-joint'], 4, '2'],
  ['runner 6', 'spray-response', ['leak-runner-joint'], 6, '2'],
  ['injector seal #5', 'spray-response', ['leak-injector-seal'], 5, '1'],
  ['exhaust manifold gasket bank 1', 'smoke-leak', ['exhaust-leak'], undefined, '1'],
  ['coil stem cylinder 2', 'repair-confirmed', ['secondary-cylinder'], 2, '2'],
  ['spark plug 3', 'repair-confirmed', ['plug-worn', 'plug-fouled'], 3, '1'],
  ['plug lead 3', 'repair-confirmed', ['secondary-cylinder'], 3, '1'],
  ['fuel pump', 'repair-confirmed', ['fuel-delivery-low'], undefined, undefined],
  ['purge valve', 'cap-changed', ['purge-stuck-open'], undefined, undefined],
  ['blanking plate', 'spray-response', [], undefined, undefined],
  ['runner joint cylinder 9', 'spray-response', ['leak-runner-joint'], undefined, undefined],
])('%s (%s)', (...row) => {
  const [place, kind, causes, cylinder, bank] = row
  expect(readPlace(place, { table, engine: v6, among: placeable(table, kind) })).toEqual({
    causes,
    cylinder,
    bank,
  })
})
