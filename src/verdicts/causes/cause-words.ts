import type { CauseId } from '../../limits/keys.ts'
import type { WordKey } from '../../texts/messages.ts'

/** What a cause is called, without its place. */
export const CAUSE_WORDS: Readonly<Record<CauseId, WordKey>> = {
  'leak-throttle-body': 'cause.leak-throttle-body',
  'leak-intake-duct': 'cause.leak-intake-duct',
  'leak-brake-booster': 'cause.leak-brake-booster',
  'leak-vacuum-hose': 'cause.leak-vacuum-hose',
  'leak-crankcase-ventilation': 'cause.leak-crankcase-ventilation',
  'leak-manifold': 'cause.leak-manifold',
  'leak-runner-joint': 'cause.leak-runner-joint',
  'leak-injector-seal': 'cause.leak-injector-seal',
  'purge-stuck-open': 'cause.purge-stuck-open',
  'egr-stuck-open': 'cause.egr-stuck-open',
  'fuel-delivery-low': 'cause.fuel-delivery-low',
  'fuel-pressure-high': 'cause.fuel-pressure-high',
  'air-meter-low': 'cause.air-meter-low',
  'fuel-quality': 'cause.fuel-quality',
  'oxygen-sensor-biased': 'cause.oxygen-sensor-biased',
  'exhaust-leak': 'cause.exhaust-leak',
  'injector-restricted': 'cause.injector-restricted',
  'injector-leaking': 'cause.injector-leaking',
  'secondary-cylinder': 'cause.secondary-cylinder',
  'secondary-shared': 'cause.secondary-shared',
  'plug-worn': 'cause.plug-worn',
  'plug-fouled': 'cause.plug-fouled',
  'compression-loss': 'cause.compression-loss',
  'valve-timing': 'cause.valve-timing',
  'leak-at-place': 'cause.leak-at-place',
  other: 'cause.other',
  'idle-valve-sticks': 'cause.idle-valve-sticks',
  'exhaust-restricted': 'cause.exhaust-restricted',
}
