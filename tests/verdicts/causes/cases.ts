import {
  cap, code, compression, gas, heard, inline, pressure, repair, smoke, spray, trim, uncap, v6, v8, vacuum, type WorkedCase,
} from './case.ts'

const FALLS = [...trim('idle', [28]), ...trim('2500 rpm', [6])]
const FALLS_BOTH = [...trim('idle', [28, 27]), ...trim('2500 rpm', [7, 6])]
const FALLS_BANK_2 = [...trim('idle', [3, 26]), ...trim('2500 rpm', [2, 6])]
const RISES = [...trim('idle', [4]), ...trim('2500 rpm', [16])]
const LEAN_THROUGHOUT = [...trim('idle', [18]), ...trim('2500 rpm', [19])]
const LEAN_THROUGHOUT_BANK_2 = [...trim('idle', [2, 19]), ...trim('2500 rpm', [2, 20])]
const RICH = [...trim('idle', [-18]), ...trim('2500 rpm', [-14])]
const IN_ORDER = [...trim('idle', [4]), ...trim('2500 rpm', [3])]
const EVEN_4 = compression([12.2, 12.4, 12.1, 12.3])
const LEAN_GAS = gas({ CO: 0.1, CO2: 13.8, HC: 140, O2: 1.8 })
const RICH_GAS = gas({ CO: 3.2, CO2: 12.2, HC: 290, O2: 0.3 })

const NOT_LEAKS = ['fuel-delivery-low', 'air-meter-low', 'compression-loss', 'secondary-cylinder', 'plug-worn', 'injector-restricted']
const LEAKS = ['leak-throttle-body', 'leak-intake-duct', 'leak-brake-booster', 'leak-vacuum-hose', 'leak-crankcase-ventilation', 'leak-manifold', 'leak-runner-joint']

/**
 * Worked cases, as the trade reads them. Source of all of them: common practice, no source.
 * Each is invented; none is a record of a real vehicle.
 */
export const CASES: readonly WorkedCase[] = [
  // ---- air leaks upstream of the runners
  { name: 'brake servo hose: all lean, trims fall, one spray answers, plugging the port ends it', engine: v8, burn: 'all lean',
    log: [code('P0171'), code('P0174'), ...FALLS_BOTH, ...pressure(350, 342), spray('throttle body gasket', 'no response'), spray('brake servo hose', 'response'),
      spray('brake servo hose', 'response'), cap('brake servo hose', 'fixed'), smoke('brake servo hose', 'leak')],
    first: 'leak-brake-booster', never: [...NOT_LEAKS, 'leak-throttle-body', 'leak-manifold'], clear: true },
  { name: 'throttle body gasket: still answers with the brake port capped', engine: inline(4), burn: 'all lean',
    log: [...FALLS, spray('throttle body gasket', 'response'), cap('brake hose port'), spray('throttle body gasket', 'response'), smoke('throttle body gasket', 'leak')],
    first: 'leak-throttle-body', never: [...NOT_LEAKS, 'leak-brake-booster'], clear: true },
  { name: 'spray at the throttle body was drawn through the brake port beside it', engine: inline(4), burn: 'all lean',
    log: [...FALLS, spray('throttle body gasket', 'response'), cap('brake servo hose', 'response'), spray('throttle body gasket', 'no response'), uncap('brake servo hose')],
    first: 'leak-brake-booster', never: [...NOT_LEAKS, 'leak-throttle-body'] },
  { name: 'crankcase breather split: high at idle, smoke out of it', engine: inline(4), burn: 'all lean',
    log: [code('P0171'), ...FALLS, vacuum(15), spray('throttle body gasket', 'no response'), spray('intake manifold gasket', 'no response'), smoke('breather hose', 'leak'), cap('breather hose', 'fixed')],
    first: 'leak-crankcase-ventilation', never: [...NOT_LEAKS, 'leak-throttle-body', 'leak-manifold'], clear: true },
  { name: 'torn bellows between meter and throttle', engine: inline(4), burn: 'all lean',
    log: [...FALLS, spray('throttle body', 'no response'), spray('air duct behind the meter', 'response'), smoke('air duct behind the meter', 'leak')],
    first: 'leak-intake-duct', never: [...NOT_LEAKS, 'leak-throttle-body'], clear: true },
  { name: 'vacuum hose off at the tee, found by spray and by capping', engine: inline(6), burn: 'all lean', swingRpm: 90,
    log: [code('P0171'), ...FALLS, spray('vacuum hose at the tee', 'response'), cap('vacuum hose at the tee', 'response')],
    first: 'leak-vacuum-hose', never: NOT_LEAKS },
  { name: 'a leak at a place the table has no words for', engine: inline(4), burn: 'all lean',
    log: [...FALLS, spray('throttle body', 'no response'), spray('blanking plate behind the lifting eye', 'response'), smoke('blanking plate behind the lifting eye', 'leak')],
    first: 'leak-at-place|blanking plate behind the lifting eye', never: [...NOT_LEAKS, 'leak-throttle-body'] },
  { name: 'only trims and pattern: leaks as a family, none of them certain', engine: inline(4), burn: 'all lean', log: [...FALLS],
    first: ['leak-vacuum-hose', 'leak-crankcase-ventilation', 'leak-brake-booster'], never: NOT_LEAKS, clear: false },
  { name: 'a response by ear alone does not make it certain', engine: inline(4), burn: 'all lean', log: [...FALLS, heard('vacuum hose', 'response')],
    first: 'leak-vacuum-hose', never: NOT_LEAKS, clear: false },
  { name: 'purge valve stuck open: pinching its hose settles the idle', engine: inline(4), burn: 'all lean',
    log: [...trim('idle', [16]), ...trim('2500 rpm', [3]), spray('throttle body gasket', 'no response'), spray('intake manifold gasket', 'no response'), cap('purge hose', 'fixed'), code('P0441')],
    first: 'purge-stuck-open', never: NOT_LEAKS },
  // ---- a bank
  { name: 'manifold gasket of bank 2', engine: v6, burn: { 2: 'lean', 4: 'lean', 6: 'lean' },
    log: [code('P0174'), ...FALLS_BANK_2, spray('intake manifold gasket bank 1', 'no response'), spray('intake manifold gasket bank 2', 'response'), smoke('intake manifold gasket bank 2', 'leak')],
    first: 'leak-manifold|2', never: [...NOT_LEAKS, 'leak-vacuum-hose', 'oxygen-sensor-biased'], clear: true },
  { name: 'bank 1 lean, nothing sprayed yet', engine: v6, burn: { 1: 'lean', 3: 'lean', 5: 'lean' }, log: [code('P0171'), ...trim('idle', [26, 2]), ...trim('2500 rpm', [6, 1])],
    first: 'leak-manifold|1', never: [...NOT_LEAKS, 'leak-vacuum-hose', 'leak-brake-booster'] },
  { name: 'left and right gasket not told apart by bank: stays open which', engine: v8, burn: 'all lean', log: [...FALLS_BOTH, spray('left manifold gasket', 'no response'), spray('right manifold gasket', 'no response')],
    first: ['leak-vacuum-hose', 'leak-crankcase-ventilation', 'leak-brake-booster'], never: ['leak-manifold', ...NOT_LEAKS], clear: false },
  { name: 'oxygen sensor of bank 2 reads lean: trims high, the bank burns rich', engine: v6, burn: { 2: 'falling', 4: 'falling', 6: 'falling' },
    log: [...LEAN_THROUGHOUT_BANK_2, code('P0152'), ...RICH_GAS, ...compression([12, 12.1, 12.2, 12, 12.1, 12.1])],
    first: 'oxygen-sensor-biased|2', never: [...LEAKS, 'fuel-delivery-low', 'compression-loss'] },
  { name: 'exhaust leak before the sensor of bank 1: air comes in after the engine, nothing burns lean', engine: v6, burn: 'all level',
    log: [code('P0171'), ...trim('idle', [19, 2]), ...trim('2500 rpm', [12, 1]), smoke('exhaust manifold bank 1', 'leak')],
    first: 'exhaust-leak|1', never: [...LEAKS, 'fuel-delivery-low', 'air-meter-low'] },
  // ---- one cylinder's mixture
  { name: 'runner joint of cylinder 2', engine: inline(4), burn: { 2: 'lean' }, log: [code('P0302'), ...trim('idle', [10]), ...trim('2500 rpm', [4]),
      spray('runner joint cylinder 3', 'no response'), spray('runner joint cylinder 2', 'response')],
    first: 'leak-runner-joint|2', never: ['injector-restricted', 'leak-vacuum-hose', 'secondary-cylinder', 'plug-worn', 'compression-loss'] },
  { name: 'runner joint shown by captures after its repair', engine: inline(4), burn: { 2: 'lean' }, repair: 'repair confirmed',
    log: [spray('runner joint cylinder 2', 'response'), repair('runner joint cylinder 2')],
    first: 'leak-runner-joint|2', never: ['injector-restricted', 'leak-injector-seal'], clear: true },
  { name: 'injector seal of cylinder 4', engine: inline(4), burn: { 4: 'lean' }, log: [spray('runner joint cylinder 4', 'no response'), spray('injector seal cylinder 4', 'response'), smoke('injector seal cylinder 4', 'leak')],
    first: 'leak-injector-seal|4', never: ['leak-runner-joint', 'injector-restricted', 'secondary-cylinder'], clear: true },
  { name: 'restricted injector: lean alone, no leak around it', engine: inline(4), burn: { 3: 'lean' },
    log: [code('P0303'), ...IN_ORDER, spray('runner joint cylinder 3', 'no response'), spray('injector seal cylinder 3', 'no response'), smoke('runner joint cylinder 3', 'no leak'), ...EVEN_4],
    first: 'injector-restricted|3', never: [...LEAKS, 'leak-injector-seal', 'compression-loss', 'secondary-cylinder'] },
  { name: 'injector code on the lean cylinder', engine: inline(4), burn: { 1: 'lean' }, log: [code('P0201'), ...IN_ORDER],
    first: 'injector-restricted|1', never: [...LEAKS, 'compression-loss'], clear: false },
  { name: 'one lean cylinder, nothing else: joint and injector stand side by side', engine: inline(6), burn: { 5: 'lean' }, log: [],
    first: ['leak-runner-joint|5', 'injector-restricted|5'], never: ['leak-vacuum-hose', 'fuel-delivery-low'], clear: false },
  { name: 'leaking injector: falls alone, compression even, pressure lost on hold', engine: inline(4), burn: { 2: 'rich' },
    log: [...EVEN_4, ...pressure(350, 240), ...RICH],
    first: 'injector-leaking|2', never: ['compression-loss', ...LEAKS, 'fuel-delivery-low'] },
  // ---- compression
  { name: 'burnt valve: falls alone, low compression there', engine: inline(4), burn: { 3: 'low compression' },
    log: [code('P0303'), ...IN_ORDER, vacuum(16.2), ...pressure(350, 342), ...compression([12.3, 12.5, 7.1, 12.2])],
    first: 'compression-loss|3', never: ['injector-leaking', 'plug-fouled', ...LEAKS], clear: true },
  { name: 'low compression with a level line still counts', engine: inline(4), burn: 'all level', log: [...compression([12.3, 12.5, 12.4, 8])],
    first: 'compression-loss|4', never: LEAKS },
  { name: 'head gasket between 2 and 3: both low', engine: inline(4), burn: { 2: 'low compression', 3: 'low compression' }, log: [...compression([12.3, 6.9, 7.1, 12.2])],
    first: ['compression-loss|2', 'compression-loss|3'], never: ['injector-leaking', ...LEAKS, 'valve-timing'] },
  { name: 'timing belt a tooth out: all low against the maker, little vacuum', engine: inline(4), burn: 'all level',
    log: [vacuum(12), ...[7.9, 8, 7.8, 8].map((bar, i) => ({ cells: { step: 'compression', reading: `cylinder ${i + 1}`, value: String(bar), unit: 'bar', expected_low: '11', expected_high: '14', at: 'compression' } }))],
    first: 'valve-timing', never: ['compression-loss', ...LEAKS, 'fuel-delivery-low'] },
  { name: 'a falling line without a compression test stays open', engine: inline(4), burn: { 3: 'falling' }, log: [code('P0303'), ...IN_ORDER],
    first: ['compression-loss|3', 'injector-leaking|3'], never: LEAKS, clear: false },
  // ---- ignition circuit and plugs
  { name: 'resistance in the lead of cylinder 5', engine: inline(6), burn: { 5: 'external resistance' }, firing: { 5: 4 }, log: [code('P0305'), ...IN_ORDER],
    first: 'secondary-cylinder|5', never: ['injector-restricted', 'leak-runner-joint', 'compression-loss', 'secondary-shared'] },
  { name: 'burnt coil contact, shown by captures after renewal', engine: inline(3), burn: { 2: 'external resistance' }, repair: 'repair confirmed', log: [code('P0302'), ...IN_ORDER, repair('coil stem cylinder 2')],
    first: 'secondary-cylinder|2', never: ['plug-worn', 'secondary-shared', 'injector-restricted'], clear: true },
  { name: 'open lead: no spark line on one', engine: inline(4), burn: { 1: 'open secondary' }, firing: { 1: 9 }, log: [code('P0301')],
    first: 'secondary-cylinder|1', never: ['injector-restricted', 'compression-loss', ...LEAKS] },
  { name: 'worn rotor or dead king lead: all cylinders alike', engine: v8, burn: 'all circuit', log: [code('P0300')],
    first: 'secondary-shared', never: ['secondary-cylinder', ...LEAKS, 'fuel-delivery-low'] },
  { name: 'wide plug gap: high firing voltage, mixture level', engine: inline(4), burn: { 2: 'borderline' }, firing: { 2: 5 }, log: [...IN_ORDER, ...EVEN_4],
    first: ['plug-worn|2', 'secondary-cylinder|2'], never: ['injector-restricted', 'compression-loss', ...LEAKS], clear: false },
  { name: 'fouled plug: low firing voltage, misfires, compression even', engine: inline(4), burn: { 4: 'misfiring' }, firing: { 4: -4 }, log: [code('P0304'), ...EVEN_4, ...IN_ORDER],
    first: 'plug-fouled|4', never: ['compression-loss', 'leak-runner-joint', 'plug-worn', ...LEAKS] },
  // ---- fuel, air and what is shared
  { name: 'tired pump: trims rise with load, pressure low', engine: inline(4), burn: 'all lean', log: [code('P0171'), ...RISES, ...pressure(265, 250)],
    first: 'fuel-delivery-low', never: [...LEAKS, 'air-meter-low', 'injector-restricted'], clear: true },
  { name: 'delivery by trims alone: meter not excluded', engine: inline(4), burn: 'all lean', log: [...RISES],
    first: 'fuel-delivery-low', never: LEAKS, clear: false },
  { name: 'air meter reads low: lean throughout, pressure in order, its code', engine: inline(4), burn: 'all lean', log: [...LEAN_THROUGHOUT, ...pressure(350, 345), code('P0101')],
    first: 'air-meter-low', never: [...LEAKS, 'fuel-delivery-low'] },
  { name: 'wrong fuel after filling up: lean throughout, pressure and leaks excluded', engine: inline(4), burn: 'all lean',
    log: [...LEAN_THROUGHOUT, ...pressure(350, 345), smoke('intake manifold', 'no leak'), spray('vacuum hose', 'no response')],
    first: ['air-meter-low', 'fuel-quality'], never: [...LEAKS, 'fuel-delivery-low'], clear: false },
  { name: 'regulator stuck: pressure high, all rich', engine: inline(4), burn: 'all falling', log: [...RICH, ...RICH_GAS, ...pressure(430, 420), ...EVEN_4],
    first: 'fuel-pressure-high', never: [...LEAKS, 'compression-loss', 'fuel-delivery-low'], clear: true },
  { name: 'recirculation valve stuck open: rough idle, trims in order, blocking it helps', engine: inline(4), burn: 'all misfiring', swingRpm: 70,
    log: [code('P0402'), ...IN_ORDER, vacuum(13), cap('egr valve', 'fixed')],
    first: 'egr-stuck-open', never: [...LEAKS, 'fuel-delivery-low', 'secondary-cylinder'] },
  // ---- traps
  { name: 'contradictory sprays of one place are not averaged away', engine: inline(4), burn: 'all lean', log: [...FALLS, spray('throttle body gasket', 'response'), spray('throttle body gasket', 'no response')],
    first: ['leak-vacuum-hose', 'leak-crankcase-ventilation', 'leak-brake-booster', 'leak-throttle-body'], never: NOT_LEAKS, clear: false },
  { name: 'repair that changed nothing in the captures: not the cause, whatever the word', engine: inline(4), burn: 'all lean', repair: 'no change',
    log: [...FALLS, heard('throttle body gasket', 'response'), repair('throttle body gasket', 'fixed')],
    first: ['leak-vacuum-hose', 'leak-crankcase-ventilation', 'leak-brake-booster'], never: ['leak-throttle-body'], clear: false },
  { name: 'the word fixed alone makes nothing certain', engine: inline(4), burn: { 2: 'lean' }, log: [repair('injector cylinder 2', 'fixed')],
    first: ['injector-restricted|2', 'leak-runner-joint|2', 'leak-injector-seal|2'], never: ['leak-vacuum-hose'], clear: false },
  { name: 'first repair failed, the second is shown by captures', engine: inline(4), burn: { 2: 'lean' }, repair: 'repair confirmed',
    log: [repair('injector cylinder 2', 'not fixed'), spray('runner joint cylinder 2', 'response'), repair('runner joint cylinder 2', 'fixed')],
    first: 'leak-runner-joint|2', never: ['injector-restricted', 'leak-injector-seal'] },
  { name: 'everything in order: no cause is made up', engine: inline(4), burn: 'all level', log: [...IN_ORDER, ...pressure(350, 345), ...EVEN_4, vacuum(19)],
    first: ['other', 'plug-worn', 'secondary-cylinder|1', 'leak-vacuum-hose'], never: [], clear: false },
  { name: 'nothing judged and nothing tested', engine: inline(4), burn: undefined, log: [], first: 'other', never: [], clear: false },
  { name: 'by the log alone: no captures, lean gas, falling trims, hose found and capped', engine: inline(4), burn: undefined,
    log: [code('P0171'), ...FALLS, ...LEAN_GAS, spray('vacuum hose', 'response'), cap('vacuum hose', 'fixed'), smoke('vacuum hose', 'leak')],
    first: 'leak-vacuum-hose', never: NOT_LEAKS, clear: true },
  { name: 'misfire of a lean engine is not an ignition fault', engine: inline(4), burn: 'all lean', log: [code('P0300'), code('P0171'), ...FALLS, cap('pcv valve', 'fixed'), smoke('pcv hose', 'leak')],
    first: 'leak-crankcase-ventilation', never: ['secondary-shared', 'secondary-cylinder', 'plug-worn'], clear: true },
]
