import { describe, expect, test } from 'vitest'
import { candidateKey } from '../../../src/verdicts/causes/candidates.ts'
import { weigh } from '../../../src/verdicts/causes/ledger.ts'
import { nextTest } from '../../../src/verdicts/causes/next-test.ts'
import { parseCauses } from '../../../src/verdicts/causes/schema.ts'
import { standingOf } from '../../../src/verdicts/causes/standing.ts'
import { CASES } from './cases.ts'
import {
  cap,
  compression,
  heard,
  inline,
  limits,
  repair,
  smoke,
  spray,
  trim,
  weighCase,
  type WorkedCase,
} from './case.ts'

/** Two causes with 1/2 each but for a hair: a sharp slow test and a blunt quick one. */
const table = parseCauses({
  origin: 'project-judgement',
  cylinders: 4,
  unsure: 1,
  lapse: 0,
  causes: {
    one: { prior: 1000, where: 'engine', families: [], places: [] },
    two: { prior: 1000, where: 'engine', families: [], places: [] },
    'leak-at-place': { prior: 1, where: 'place', families: [], places: [] },
    other: { prior: 0.001, where: 'engine', families: [], places: [] },
  },
  groups: {},
  evidence: {},
  follow_ups: {},
  tests: {
    sharp: {
      minutes: 20,
      at: 'engine',
      cautions: ['hot'],
      outcomes: [{ id: 'yes', chance: { one: 0.9, two: 0.1 }, otherwise: 0.5 }, { id: 'no' }],
    },
    blunt: {
      minutes: 4,
      at: 'engine',
      cautions: ['hot'],
      outcomes: [{ id: 'yes', chance: { one: 0.7, two: 0.3 }, otherwise: 0.5 }, { id: 'no' }],
    },
  },
})
const context = { table, engine: inline(4) }
const ledger = weigh([], context)
const standing = standingOf(ledger, context, limits)

describe('choice by gain a minute, reckoned by hand', () => {
  // sharp: 1 - H(0.9) = 0.5310 bits in 20 min: 0.02655; blunt: 1 - H(0.7) = 0.1187 bits in 4 min: 0.02968
  test('the blunt quick test tells more for its time', () => {
    const next = nextTest({ ledger, standing, done: () => false }, context, limits)!
    expect(next.id).toBe('blunt')
    expect(next.gainBits).toBeCloseTo(0.1187, 4)
  })

  test('once that is done the sharp one is next, and each outcome says whom it lifts', () => {
    const next = nextTest({ ledger, standing, done: (id) => id === 'blunt' }, context, limits)!
    expect([next.id, next.minutes, next.cautions]).toEqual(['sharp', 20, ['hot']])
    expect(next.gainBits).toBeCloseTo(0.531, 4)
    const [yes, no] = next.outcomes
    expect([yes!.lifts.candidate.id, no!.lifts.candidate.id]).toEqual(['one', 'two'])
    expect(yes!.lifts.share).toBeCloseTo(0.9, 4)
    expect(yes!.chance + no!.chance).toBeCloseTo(1, 12)
  })

  test('with nothing left to do there is none', () => {
    expect(nextTest({ ledger, standing, done: () => true }, context, limits)).toBeUndefined()
  })
})

const FALLS = [...trim('idle', [28]), ...trim('2500 rpm', [6])]
const base: WorkedCase = { name: '', engine: inline(4), burn: 'all lean', log: FALLS, first: '', never: [] }
const nextOf = (over: Partial<WorkedCase>) => weighCase({ ...base, ...over }).next

/** Common practice, no source: what a technician would do next. */
describe('in practice', () => {
  test('all lean, trims fall, nothing sprayed: spray round the intake', () =>
    expect(nextOf({})?.id).toBe('spray-round'))

  test('one cylinder falls, compression not measured: measure it', () =>
    expect(
      nextOf({ burn: { 3: 'falling' }, log: [...trim('idle', [3]), ...trim('2500 rpm', [2])] })?.id,
    ).toBe('compression'))

  test('one cylinder with resistance outside it: measure its lead and contacts', () => {
    const next = nextOf({ burn: { 2: 'external resistance' }, log: [] })!
    expect([next.id, next.target?.cylinder]).toEqual(['secondary-resistance', 2])
  })

  test('trims rise with load and pressure was not measured: pressure or the meter', () => {
    expect(['fuel-pressure', 'air-meter']).toContain(
      nextOf({ log: [...trim('idle', [4]), ...trim('2500 rpm', [16])] })?.id,
    )
  })

  test('low compression found: find where it goes before anything comes off', () =>
    expect(nextOf({ burn: { 3: 'falling' }, log: compression([12.3, 12.5, 7.1, 12.2]) })?.id).toBe(
      'cylinder-leakage',
    ))

  test('a cause that stands clear: repair it and capture again', () => {
    expect(
      nextOf({ log: [...FALLS, spray('vacuum hose', 'response'), cap('vacuum hose', 'fixed')] })?.id,
    ).toBe('repair-and-capture')
  })

  test('repaired and no capture since: capture, whatever the word says', () => {
    expect(
      nextOf({
        log: [
          ...FALLS,
          spray('vacuum hose', 'response'),
          smoke('vacuum hose', 'leak'),
          repair('vacuum hose', 'fixed'),
        ],
      })?.id,
    ).toBe('capture-after')
  })

  test('repair confirmed by captures and the cause clear: none', () => {
    expect(
      nextOf({
        log: [
          ...FALLS,
          spray('vacuum hose', 'response'),
          smoke('vacuum hose', 'leak'),
          repair('vacuum hose', 'fixed'),
        ],
        repair: 'repair confirmed',
      }),
    ).toBeUndefined()
  })

  test('no capture that can be judged: take one', () =>
    expect(nextOf({ burn: undefined, log: [] })?.id).toBe('capture-before'))
})

test('no test is proposed again that the log shows as done', () => {
  for (const worked of CASES) {
    const { next } = weighCase(worked)
    const steps = new Set(worked.log.map((r) => r.cells['step']))
    if (
      next?.id === 'compression' ||
      next?.id === 'fuel-pressure' ||
      next?.id === 'vacuum' ||
      next?.id === 'gas' ||
      next?.id === 'smoke'
    ) {
      expect(steps.has(next.id), worked.name).toBe(false)
    }
  }
  const sprayed = [
    ...FALLS,
    spray('vacuum hose', 'no response'),
    spray('throttle body', 'no response'),
    heard('breather hose', 'no response'),
  ]
  const weighed = weighCase({ ...base, log: sprayed })
  expect(weighed.next?.id).not.toBe('spray-round')
  const target =
    weighed.next && 'gainBits' in weighed.next && weighed.next.target ? candidateKey(weighed.next.target) : ''
  if (weighed.next?.id === 'spray-place')
    expect(['leak-vacuum-hose', 'leak-throttle-body', 'leak-crankcase-ventilation']).not.toContain(target)
})
