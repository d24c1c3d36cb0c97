import type { FollowUpId, NextTestId } from '../../limits/keys.ts'
import type { Arg, KeyNeeding, WordKey } from '../../texts/messages.ts'

/** A test or follow-up of templates/causes.yaml in words: what to do, and each of its outcomes. */
interface TestWords {
  says: KeyNeeding<{ target: Arg; seat: Arg; cylinder: Arg }>
  outcomes: Readonly<Record<string, WordKey>>
}

/** Tests that may be advised next. */
export const TEST_WORDS: Readonly<Record<NextTestId, TestWords>> = {
  'trims-two-speeds': {
    says: 'next-test.trims-two-speeds',
    outcomes: {
      falls: 'next-test.trims-two-speeds.falls',
      rises: 'next-test.trims-two-speeds.rises',
      rich: 'next-test.trims-two-speeds.rich',
      'in-order': 'next-test.trims-two-speeds.in-order',
    },
  },
  'spray-round': {
    says: 'next-test.spray-round',
    outcomes: { found: 'next-test.spray-round.found', nothing: 'next-test.spray-round.nothing' },
  },
  'spray-place': {
    says: 'next-test.spray-place',
    outcomes: { response: 'next-test.spray-place.response', silent: 'next-test.spray-place.silent' },
  },
  'cap-place': {
    says: 'next-test.cap-place',
    outcomes: { changed: 'next-test.cap-place.changed', unchanged: 'next-test.cap-place.unchanged' },
  },
  smoke: {
    says: 'next-test.smoke',
    outcomes: { found: 'next-test.smoke.found', nothing: 'next-test.smoke.nothing' },
  },
  compression: {
    says: 'next-test.compression',
    outcomes: { found: 'next-test.compression.found', nothing: 'next-test.compression.nothing' },
  },
  'fuel-pressure': {
    says: 'next-test.fuel-pressure',
    outcomes: {
      low: 'next-test.fuel-pressure.low',
      high: 'next-test.fuel-pressure.high',
      falls: 'next-test.fuel-pressure.falls',
      'in-order': 'next-test.fuel-pressure.in-order',
    },
  },
  vacuum: {
    says: 'next-test.vacuum',
    outcomes: { low: 'next-test.vacuum.low', 'in-order': 'next-test.vacuum.in-order' },
  },
  gas: {
    says: 'next-test.gas',
    outcomes: {
      lean: 'next-test.gas.lean',
      rich: 'next-test.gas.rich',
      'in-order': 'next-test.gas.in-order',
    },
  },
  'secondary-resistance': {
    says: 'next-test.secondary-resistance',
    outcomes: {
      high: 'next-test.secondary-resistance.high',
      'in-order': 'next-test.secondary-resistance.in-order',
    },
  },
  'read-plugs': {
    says: 'next-test.read-plugs',
    outcomes: {
      worn: 'next-test.read-plugs.worn',
      fouled: 'next-test.read-plugs.fouled',
      'in-order': 'next-test.read-plugs.in-order',
    },
  },
  'swap-injector': {
    says: 'next-test.swap-injector',
    outcomes: { moves: 'next-test.swap-injector.moves', stays: 'next-test.swap-injector.stays' },
  },
  'injector-flow': {
    says: 'next-test.injector-flow',
    outcomes: {
      less: 'next-test.injector-flow.less',
      more: 'next-test.injector-flow.more',
      even: 'next-test.injector-flow.even',
    },
  },
  'rotor-and-cap': {
    says: 'next-test.rotor-and-cap',
    outcomes: { worn: 'next-test.rotor-and-cap.worn', 'in-order': 'next-test.rotor-and-cap.in-order' },
  },
  'fuel-sample': {
    says: 'next-test.fuel-sample',
    outcomes: { wrong: 'next-test.fuel-sample.wrong', 'in-order': 'next-test.fuel-sample.in-order' },
  },
  'block-recirculation': {
    says: 'next-test.block-recirculation',
    outcomes: {
      changed: 'next-test.block-recirculation.changed',
      unchanged: 'next-test.block-recirculation.unchanged',
    },
  },
  'oxygen-sensor': {
    says: 'next-test.oxygen-sensor',
    outcomes: { misleads: 'next-test.oxygen-sensor.misleads', follows: 'next-test.oxygen-sensor.follows' },
  },
  'coolant-sensor': {
    says: 'next-test.coolant-sensor',
    outcomes: {
      cold: 'next-test.coolant-sensor.cold',
      hot: 'next-test.coolant-sensor.hot',
      'in-order': 'next-test.coolant-sensor.in-order',
    },
  },
  'exhaust-joints': {
    says: 'next-test.exhaust-joints',
    outcomes: { leaks: 'next-test.exhaust-joints.leaks', tight: 'next-test.exhaust-joints.tight' },
  },
  'air-meter': {
    says: 'next-test.air-meter',
    outcomes: { low: 'next-test.air-meter.low', 'in-order': 'next-test.air-meter.in-order' },
  },
  'timing-marks': {
    says: 'next-test.timing-marks',
    outcomes: { out: 'next-test.timing-marks.out', 'in-order': 'next-test.timing-marks.in-order' },
  },
  'swap-coil': {
    says: 'next-test.swap-coil',
    outcomes: { moves: 'next-test.swap-coil.moves', stays: 'next-test.swap-coil.stays' },
  },
  'idle-valve': {
    says: 'next-test.idle-valve',
    outcomes: { stuck: 'next-test.idle-valve.stuck', moves: 'next-test.idle-valve.moves' },
  },
  'purge-shut': {
    says: 'next-test.purge-shut',
    outcomes: { passes: 'next-test.purge-shut.passes', shuts: 'next-test.purge-shut.shuts' },
  },
  'back-pressure': {
    says: 'next-test.back-pressure',
    outcomes: { high: 'next-test.back-pressure.high', 'in-order': 'next-test.back-pressure.in-order' },
  },
}

/** What follows once a cause stands clear. */
export const FOLLOW_UP_WORDS: Readonly<Record<FollowUpId, TestWords & { why: WordKey }>> = {
  'cylinder-leakage': {
    says: 'next-test.cylinder-leakage',
    why: 'next-test.cylinder-leakage.why',
    outcomes: {
      intake: 'next-test.cylinder-leakage.intake',
      exhaust: 'next-test.cylinder-leakage.exhaust',
      crankcase: 'next-test.cylinder-leakage.crankcase',
      coolant: 'next-test.cylinder-leakage.coolant',
    },
  },
  'repair-and-capture': {
    says: 'next-test.repair-and-capture',
    why: 'next-test.repair-and-capture.why',
    outcomes: {
      'in-order': 'next-test.repair-and-capture.in-order',
      stays: 'next-test.repair-and-capture.stays',
    },
  },
  'repair-both': {
    says: 'next-test.repair-both',
    why: 'next-test.repair-both.why',
    outcomes: { 'in-order': 'next-test.repair-both.in-order', stays: 'next-test.repair-both.stays' },
  },
  'check-work': {
    says: 'next-test.check-work',
    why: 'next-test.check-work.why',
    outcomes: { holds: 'next-test.check-work.holds', fails: 'next-test.check-work.fails' },
  },
  'test-again': {
    says: 'next-test.test-again',
    why: 'next-test.test-again.why',
    outcomes: { shown: 'next-test.test-again.shown', 'not-shown': 'next-test.test-again.not-shown' },
  },
  'capture-after': {
    says: 'next-test.capture-after',
    why: 'next-test.capture-after.why',
    outcomes: { 'in-order': 'next-test.capture-after.in-order', stays: 'next-test.capture-after.stays' },
  },
  'capture-before': {
    says: 'next-test.capture-before',
    why: 'next-test.capture-before.why',
    outcomes: {
      all: 'next-test.capture-before.all',
      bank: 'next-test.capture-before.bank',
      cylinder: 'next-test.capture-before.cylinder',
      level: 'next-test.capture-before.level',
    },
  },
  'capture-when-it-shows': {
    says: 'next-test.capture-when-it-shows',
    why: 'next-test.capture-when-it-shows.why',
    outcomes: { odd: 'next-test.capture-when-it-shows.odd', level: 'next-test.capture-when-it-shows.level' },
  },
}
