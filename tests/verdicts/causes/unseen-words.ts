import { compression, trim } from './case.ts'

/** Readings and groups of causes that the sets of cases written before the ledger was asked have in common. */
export const IN_ORDER = [...trim('idle', [3]), ...trim('2500 rpm', [2])]
export const EVEN_4 = compression([11.9, 12.1, 12.0, 11.8])
export const LEAKS = [
  'leak-throttle-body',
  'leak-intake-duct',
  'leak-brake-booster',
  'leak-vacuum-hose',
  'leak-crankcase-ventilation',
  'leak-manifold',
  'leak-runner-joint',
  'leak-injector-seal',
  'leak-at-place',
]
export const FUEL = ['fuel-delivery-low', 'air-meter-low', 'fuel-quality']
export const CYLINDER = [
  'injector-restricted',
  'injector-leaking',
  'secondary-cylinder',
  'plug-worn',
  'plug-fouled',
  'compression-loss',
]
