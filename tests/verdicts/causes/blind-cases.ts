import { cap, code, compression, gas, inline, pressure, reads, repair, smoke, spray, trim, v6, v8, vacuum, type WorkedCase } from './case.ts'

const IN_ORDER = [...trim('idle', [3]), ...trim('2500 rpm', [2])]
const EVEN_4 = compression([11.9, 12.1, 12.0, 11.8])
const LEAKS = [
  'leak-throttle-body', 'leak-intake-duct', 'leak-brake-booster', 'leak-vacuum-hose', 'leak-crankcase-ventilation',
  'leak-manifold', 'leak-runner-joint', 'leak-injector-seal', 'leak-at-place']
const FUEL = ['fuel-delivery-low', 'air-meter-low', 'fuel-quality']
const CYLINDER = ['injector-restricted', 'injector-leaking', 'secondary-cylinder', 'plug-worn', 'plug-fouled', 'compression-loss']

/**
 * A third set, written down before the ledger was asked about any of them, and after its ratios were settled by the other
 * two; DEVELOPERS.md says how many came out at once. Source: common practice, no source. Each is invented.
 */
export const BLIND_CASES: readonly WorkedCase[] = [
  { name: 'head gasket burnt through between neighbours: two low readings side by side', engine: inline(4), burn: { 2: 'low compression', 3: 'low compression' },
    log: [code('P0302'), code('P0303'), ...IN_ORDER, ...compression([12.1, 5.2, 5.4, 12.0])],
    first: ['compression-loss|2', 'compression-loss|3'], never: [...LEAKS, ...FUEL, 'plug-fouled', 'injector-leaking', 'valve-timing'] },
  { name: 'burnt contact in the coil boot of cylinder 5 of an eight', engine: v8, burn: { 5: 'external resistance' },
    log: [code('P0305'), ...trim('idle', [2, 3]), ...trim('2500 rpm', [1, 2]), ...compression([12, 12.1, 11.9, 12, 11.8, 12, 12.1, 11.9])],
    first: 'secondary-cylinder|5', never: [...LEAKS, ...FUEL, 'compression-loss', 'injector-restricted', 'injector-leaking'] },
  { name: 'crankcase diaphragm of a four: whistles, smoke finds nothing, a pinched breather hose steadies it', engine: inline(4), burn: 'all lean', swingRpm: 90,
    log: [code('P0171'), ...trim('idle', [28]), ...trim('2500 rpm', [7]), smoke('intake manifold', 'no leak'), cap('breather hose', 'fixed')],
    first: 'leak-crankcase-ventilation', never: [...CYLINDER, ...FUEL, 'exhaust-leak', 'leak-manifold'] },
  { name: 'pump worn: in order at rest, falls off under load', engine: v6, burn: 'all lean',
    log: [code('P0171'), code('P0174'), ...trim('idle', [6, 7]), ...trim('2500 rpm', [21, 22]), ...pressure(352),
      reads('fuel-pressure', 'idle', 262, { unit: 'kPa', expected_low: '330', expected_high: '370', at: 'running' })],
    first: 'fuel-delivery-low', never: [...LEAKS, ...CYLINDER, 'air-meter-low', 'oxygen-sensor-biased'] },
  { name: 'regulator jammed: too much pressure, everything rich', engine: inline(4), burn: 'all falling',
    log: [code('P0172'), ...trim('idle', [-19]), ...trim('2500 rpm', [-18]), ...pressure(455, 448), ...EVEN_4],
    first: 'fuel-pressure-high', never: [...LEAKS, ...FUEL, ...CYLINDER, 'purge-stuck-open'] },
  { name: 'injector drips overnight: long crank, one rich cylinder, pressure does not hold', engine: inline(4), burn: { 3: 'rich' },
    log: [...trim('idle', [-8]), ...trim('2500 rpm', [-3]), ...pressure(350, 180), ...EVEN_4],
    first: 'injector-leaking|3', never: [...LEAKS, ...FUEL, 'compression-loss', 'plug-worn', 'secondary-cylinder'] },
  { name: 'soot under the recirculation valve: rough idle, a blanking plate cures it', engine: inline(4), burn: 'all lean',
    log: [...IN_ORDER, vacuum(13), cap('egr valve', 'fixed')],
    first: 'egr-stuck-open', never: [...CYLINDER, ...FUEL, 'leak-manifold', 'leak-runner-joint'] },
  { name: 'sensor poisoned by sealant: trims plead lean, lines and gas are rich', engine: inline(4), burn: 'all falling',
    log: [code('P0171'), ...trim('idle', [19]), ...trim('2500 rpm', [18]), ...gas({ CO: 3.6, CO2: 12.2, HC: 260, O2: 0.4 }), ...pressure(350, 345), ...EVEN_4],
    first: 'oxygen-sensor-biased', never: [...LEAKS, ...FUEL, ...CYLINDER] },
  { name: 'rotor burnt short on a distributor engine: every line starts high and falls steeply', engine: inline(6), burn: 'all circuit',
    log: [code('P0300'), ...IN_ORDER],
    first: 'secondary-shared', never: [...LEAKS, ...FUEL, 'compression-loss', 'injector-restricted'] },
  { name: 'one plug with its gap eroded wide: fires high, burns level', engine: inline(4), burn: 'all level', firing: { 4: 5 },
    log: [code('P0304'), ...IN_ORDER, ...EVEN_4],
    first: ['plug-worn|4', 'secondary-cylinder|4'], never: [...LEAKS, ...FUEL, 'compression-loss', 'injector-restricted'] },
  { name: 'belt a tooth out: weak and even on all, little vacuum', engine: inline(4), burn: 'all level',
    log: [code('P0016'), ...IN_ORDER, vacuum(13), ...compression([8.4, 8.5, 8.3, 8.4])],
    first: 'valve-timing', never: [...LEAKS, ...FUEL, 'injector-restricted', 'plug-worn'] },
  { name: 'gasket at one port of bank 1: that cylinder lean, its bank trimmed high at idle only', engine: v6, burn: { 1: 'lean' },
    log: [code('P0171'), ...trim('idle', [18, 2]), ...trim('2500 rpm', [4, 1]), spray('intake gasket cylinder 1', 'response'), spray('intake gasket cylinder 3', 'no response')],
    first: ['leak-runner-joint|1', 'leak-manifold|1'], never: [...FUEL, ...CYLINDER, 'oxygen-sensor-biased', 'exhaust-leak'] },
  { name: 'servo hose split on an eight: hiss at the pedal, clamped it idles', engine: v8, burn: 'all lean',
    log: [code('P0171'), code('P0174'), ...trim('idle', [21, 20]), ...trim('2500 rpm', [4, 5]), spray('brake servo hose', 'response'), cap('brake servo hose', 'fixed')],
    first: 'leak-brake-booster', never: [...FUEL, ...CYLINDER, 'leak-manifold'], clear: true },
  { name: 'purge valve open on an empty canister: a vacuum leak that no spray finds', engine: inline(4), burn: 'all lean',
    log: [code('P0171'), ...trim('idle', [18]), ...trim('2500 rpm', [3]), spray('intake manifold gasket', 'no response'), spray('vacuum hose', 'no response'),
      spray('throttle body gasket', 'no response'), cap('purge hose', 'fixed')],
    first: 'purge-stuck-open', never: [...FUEL, ...CYLINDER, 'leak-manifold', 'leak-vacuum-hose', 'leak-throttle-body'] },
  { name: 'plug wet with oil: fires low, misfires, compression in order', engine: inline(4), burn: { 2: 'misfiring' }, firing: { 2: -4.5 },
    log: [code('P0302'), ...IN_ORDER, ...EVEN_4],
    first: 'plug-fouled|2', never: [...LEAKS, ...FUEL, 'compression-loss', 'injector-restricted'] },
  { name: 'injector gummed up: one lean cylinder, trims a little high at all speeds, joint silent', engine: inline(4), burn: { 3: 'lean' },
    log: [code('P0303'), ...trim('idle', [6]), ...trim('2500 rpm', [7]), spray('runner joint cylinder 3', 'no response'), spray('injector seal cylinder 3', 'no response'), ...EVEN_4],
    first: 'injector-restricted|3', never: [...LEAKS, ...FUEL, 'compression-loss'] },
  { name: 'two faults: a runner joint on 2 and a fouled plug on 4', engine: inline(4), burn: { 2: 'lean' }, firing: { 4: -5 },
    log: [code('P0304'), ...trim('idle', [11]), ...trim('2500 rpm', [3]), spray('runner joint cylinder 2', 'response'), ...EVEN_4],
    first: ['leak-runner-joint|2', 'plug-fouled|4'], never: [...FUEL, 'compression-loss', 'injector-restricted'] },
  { name: 'two faults: a hose off, and a weak pump', engine: inline(4), burn: 'all lean',
    log: [code('P0171'), ...trim('idle', [25]), ...trim('2500 rpm', [19]), spray('vacuum hose', 'response'), cap('vacuum hose', 'response'), ...pressure(270, 265)],
    first: ['leak-vacuum-hose', 'fuel-delivery-low'], never: [...CYLINDER, 'leak-manifold'], clear: false },
  { name: 'plug lead renewed at random; the fuel filter was it', engine: inline(4), burn: 'all lean', repair: 'no change',
    log: [repair('plug lead', 'not fixed'), ...trim('idle', [8]), ...trim('2500 rpm', [19]), ...pressure(285, 280)],
    first: 'fuel-delivery-low', never: [...LEAKS, ...CYLINDER] },
]
