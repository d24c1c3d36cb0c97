import { expect, test } from 'vitest'
import { placeKey } from '../../../src/test-log/place/read-words.ts'
import { placeable } from '../../../src/verdicts/causes/candidates.ts'
import { readPlace } from '../../../src/verdicts/causes/place-words.ts'
import { inline, table, v6 } from './case.ts'

const RUNNER = ['leak-runner-joint']
const MANIFOLD = ['leak-manifold']
const THROTTLE = ['leak-throttle-body']
const PLUGS = ['plug-worn', 'plug-fouled']

/** Words of the trade for places, plain, in shorthand and in four languages; common practice, no source. */
test.each<[string, string, readonly string[], readonly number[], string | undefined]>([
  ['throttle body gasket', 'spray-response', THROTTLE, [], undefined],
  ['brake servo hose tee', 'spray-response', ['leak-brake-booster'], [], undefined],
  ['Brake booster hose', 'cap-changed', ['leak-brake-booster'], [], undefined],
  ['PCV valve hose', 'smoke-leak', ['leak-crankcase-ventilation'], [], undefined],
  ['intake manifold gasket bank 2', 'spray-response', MANIFOLD, [], '2'],
  ['intake manifold gasket', 'spray-response', MANIFOLD, [], undefined],
  ['intake manifold gasket cylinder 3', 'spray-response', RUNNER, [3], '1'],
  ['runner joint cyl. 4', 'spray-response', RUNNER, [4], '2'],
  ['runner 6', 'spray-response', RUNNER, [6], '2'],
  ['injector seal #5', 'spray-response', ['leak-injector-seal'], [5], '1'],
  ['exhaust manifold gasket bank 1', 'smoke-leak', ['exhaust-leak'], [], '1'],
  ['coil stem cylinder 2', 'repair-confirmed', ['secondary-cylinder'], [2], '2'],
  ['spark plug 3', 'repair-confirmed', PLUGS, [3], '1'],
  ['plug lead 3', 'repair-confirmed', ['secondary-cylinder'], [3], '1'],
  ['fuel pump', 'repair-confirmed', ['fuel-delivery-low'], [], undefined],
  ['purge valve', 'cap-changed', ['purge-stuck-open'], [], undefined],
  ['blanking plate', 'spray-response', [], [], undefined],
  ['runner joint cylinder 9', 'spray-response', RUNNER, [], undefined],
  ['coolant temperature sensor', 'repair-confirmed', ['coolant-sensor-misleads'], [], undefined],
  ['ECT sensor', 'repair-confirmed', ['coolant-sensor-misleads'], [], undefined],
  // parts of other systems that sound like ours
  ['oil filter', 'repair-confirmed', [], [], undefined],
  ['brake pads', 'repair-confirmed', [], [], undefined],
  ['battery lead', 'repair-confirmed', [], [], undefined],
  ['water pump', 'repair-confirmed', [], [], undefined],
  ['Bremsbeläge', 'repair-confirmed', [], [], undefined],
  ['filtre à huile', 'repair-confirmed', [], [], undefined],
  ['pastillas de freno', 'repair-confirmed', [], [], undefined],
  ['spark plugs and oil change', 'repair-confirmed', PLUGS, [], undefined],
  ['brake pads and servo hose', 'repair-confirmed', ['leak-brake-booster'], [], undefined],
  ['oil breather hose', 'repair-confirmed', ['leak-crankcase-ventilation'], [], undefined],
  // shorthand
  ['TB', 'spray-response', THROTTLE, [], undefined],
  ['TB to plenum joint', 'spray-response', THROTTLE, [], undefined],
  ['inlet mani B2', 'spray-response', MANIFOLD, [], '2'],
  ['mani gskt B1', 'spray-response', MANIFOLD, [], '1'],
  ['int. manif. gasket bk 2', 'spray-response', MANIFOLD, [], '2'],
  ['mani gskt cyl. 2', 'spray-response', RUNNER, [2], '2'],
  ['mani gskt #2', 'spray-response', RUNNER, [2], '2'],
  ['vac tee', 'cap-changed', ['leak-vacuum-hose'], [], undefined],
  ['all 5 vac nipples', 'cap-unchanged', ['leak-vacuum-hose'], [], undefined],
  ['EVAP', 'cap-changed', ['purge-stuck-open'], [], undefined],
  ['EGR', 'cap-changed', ['egr-stuck-open'], [], undefined],
  ['CCV hose', 'smoke-leak', ['leak-crankcase-ventilation'], [], undefined],
  ['IAC', 'repair-confirmed', ['idle-valve-sticks'], [], undefined],
  ['inj 4', 'repair-confirmed', ['leak-injector-seal', 'injector-restricted', 'injector-leaking'], [4], '2'],
  ['inj2 O-ring', 'spray-response', ['leak-injector-seal'], [2], '2'],
  [
    'injectors 2 and 5',
    'repair-confirmed',
    ['leak-injector-seal', 'injector-restricted', 'injector-leaking'],
    [2, 5],
    undefined,
  ],
  ['HT lead 5', 'repair-confirmed', ['secondary-cylinder'], [5], '1'],
  ['FPR', 'repair-confirmed', ['fuel-delivery-low', 'fuel-pressure-high'], [], undefined],
  // German
  ['Ansaugkrümmerdichtung Bank 2', 'spray-response', MANIFOLD, [], '2'],
  ['Saugrohrdichtung Zyl. 4', 'spray-response', RUNNER, [4], '2'],
  ['Drosselklappendichtung', 'spray-response', THROTTLE, [], undefined],
  ['Unterdruckschlauch', 'cap-changed', ['leak-vacuum-hose'], [], undefined],
  ['BKV-Schlauch', 'cap-changed', ['leak-brake-booster'], [], undefined],
  ['Zündkerze 3', 'repair-confirmed', PLUGS, [3], '1'],
  ['Zündspule Zyl. 2', 'repair-confirmed', ['secondary-cylinder'], [2], '2'],
  ['Kurbelgehäuseentlüftung', 'smoke-leak', ['leak-crankcase-ventilation'], [], undefined],
  // French
  ["joint de collecteur d'admission banc 2", 'spray-response', MANIFOLD, [], '2'],
  ['boîtier papillon', 'spray-response', THROTTLE, [], undefined],
  ['durite de dépression', 'cap-changed', ['leak-vacuum-hose'], [], undefined],
  ['bougie cyl. 3', 'repair-confirmed', PLUGS, [3], '1'],
  // Spanish
  ['junta del colector de admisión bancada 1', 'spray-response', MANIFOLD, [], '1'],
  ['cuerpo de mariposa', 'spray-response', THROTTLE, [], undefined],
  ['manguito de vacío', 'cap-changed', ['leak-vacuum-hose'], [], undefined],
  ['bujía 3', 'repair-confirmed', PLUGS, [3], '1'],
])('%s (%s)', (...row) => {
  const [place, kind, causes, cylinders, bank] = row
  const read = readPlace(place, { table, engine: v6, among: placeable(table, kind) })
  expect({ causes: read.causes, cylinders: read.cylinders, bank: read.bank }).toEqual({
    causes,
    cylinders,
    bank,
  })
  expect(read.cylinder).toBe(cylinders.length === 1 ? cylinders[0] : undefined)
})

test.each([
  ['battery', true],
  ['oil filter', true],
  ['Batterie', true],
  ['plaquettes de frein', true],
  ['battery and vacuum hose', false],
  ['spark plugs and oil change', false],
  ['vacuum hose', false],
  ['thingummy', false],
])('%s lies in another system: %s', (place, elsewhere) => {
  const among = Object.keys(table.causes)
  expect(readPlace(place, { table, engine: v6, among }).isElsewhere).toBe(elsewhere)
})

test('B2 is a bank and never a cylinder, on an engine without banks too', () => {
  const read = readPlace('inlet mani B2', {
    table,
    engine: inline(4),
    among: placeable(table, 'spray-response'),
  })
  expect([read.causes, read.cylinders, read.bank]).toEqual([MANIFOLD, [], undefined])
})

test.each([
  ['runner joint cyl. 2', 'runner joint cylinder 2'],
  ['runner 2 joint', 'Runner joint, cyl 2'],
  ['TB gasket', 'throttle body gskt'],
  ['inlet manifold B2', 'bank 2 intake mani'],
  ['vacuum hoses', 'vac hose'],
])('%s and %s are one place', (a, b) => expect(placeKey(a)).toBe(placeKey(b)))

test.each([
  ['runner joint cyl. 2', 'runner joint cyl. 3'],
  ['intake manifold bank 1', 'intake manifold bank 2'],
  ['intake manifold bank 2', 'intake manifold cylinder 2'],
  ['brake hose', 'vacuum hose'],
])('%s and %s are two places', (a, b) => expect(placeKey(a)).not.toBe(placeKey(b)))
