import type { CauseId } from '../../limits/keys.ts'
import type { WordKey } from '../../texts/messages.ts'
import type { Hose, Station } from '../leak-hunt/stations.ts'

/** What the program knows of a cause beyond its weights (templates/causes.yaml has those, its places and families). */
export interface CauseKind {
  /** What it is called, without its place. */
  name: WordKey
  /** Where it lets air into the intake path. */
  seat?: { station: Station; hose?: Hose }
  /** What it touches in driving while it stands open. */
  touches?: 'brakes' | 'fuel'
}

const CAUSE_KINDS: Readonly<Record<CauseId, CauseKind>> = {
  'leak-throttle-body': { name: 'cause.leak-throttle-body', seat: { station: 'throttle' } },
  'leak-intake-duct': { name: 'cause.leak-intake-duct', seat: { station: 'duct' } },
  'leak-brake-booster': {
    name: 'cause.leak-brake-booster',
    seat: { station: 'hose', hose: 'brake servo' },
    touches: 'brakes',
  },
  'leak-vacuum-hose': { name: 'cause.leak-vacuum-hose', seat: { station: 'hose', hose: 'vacuum' } },
  'leak-crankcase-ventilation': {
    name: 'cause.leak-crankcase-ventilation',
    seat: { station: 'hose', hose: 'breather' },
  },
  'leak-manifold': { name: 'cause.leak-manifold', seat: { station: 'manifold' } },
  'leak-runner-joint': { name: 'cause.leak-runner-joint', seat: { station: 'runner' } },
  'leak-injector-seal': { name: 'cause.leak-injector-seal', seat: { station: 'port' } },
  'purge-stuck-open': { name: 'cause.purge-stuck-open', seat: { station: 'hose', hose: 'purge' } },
  'egr-stuck-open': {
    name: 'cause.egr-stuck-open',
    seat: { station: 'hose', hose: 'exhaust recirculation' },
  },
  'fuel-delivery-low': { name: 'cause.fuel-delivery-low' },
  'fuel-pressure-high': { name: 'cause.fuel-pressure-high', touches: 'fuel' },
  'air-meter-low': { name: 'cause.air-meter-low', seat: { station: 'meter' } },
  'fuel-quality': { name: 'cause.fuel-quality' },
  'coolant-sensor-misleads': { name: 'cause.coolant-sensor-misleads' },
  'oxygen-sensor-biased': { name: 'cause.oxygen-sensor-biased' },
  'exhaust-leak': { name: 'cause.exhaust-leak' },
  'injector-restricted': { name: 'cause.injector-restricted' },
  'injector-leaking': { name: 'cause.injector-leaking', touches: 'fuel' },
  'secondary-cylinder': { name: 'cause.secondary-cylinder' },
  'secondary-shared': { name: 'cause.secondary-shared' },
  'plug-worn': { name: 'cause.plug-worn' },
  'plug-fouled': { name: 'cause.plug-fouled' },
  'compression-loss': { name: 'cause.compression-loss' },
  'valve-timing': { name: 'cause.valve-timing' },
  'leak-at-place': { name: 'cause.leak-at-place' },
  other: { name: 'cause.other' },
  'idle-valve-sticks': { name: 'cause.idle-valve-sticks' },
  'exhaust-restricted': { name: 'cause.exhaust-restricted' },
}

/** What is known of a cause by its name; undefined for a name that is none. */
export const causeKind = (id: string): CauseKind | undefined =>
  Object.hasOwn(CAUSE_KINDS, id) ? CAUSE_KINDS[id as CauseId] : undefined

/** What each cause is called. */
export const CAUSE_WORDS = Object.fromEntries(
  Object.entries(CAUSE_KINDS).map(([id, { name }]) => [id, name]),
) as Readonly<Record<CauseId, WordKey>>
