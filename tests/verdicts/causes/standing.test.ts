import { describe, expect, test } from 'vitest'
import { BLIND_CASES } from './blind-cases.ts'
import { CASES } from './cases.ts'
import { FURTHER_CASES } from './further-cases.ts'
import {
  cap,
  code,
  compression,
  firstOf,
  heard,
  inline,
  pressure,
  repair,
  smoke,
  spray,
  trim,
  v6,
  weighCase,
  type WorkedCase,
} from './case.ts'

const FALLS = [...trim('idle', [28]), ...trim('2500 rpm', [6])]
const base: WorkedCase = { name: '', engine: inline(4), burn: 'all lean', log: FALLS, first: '', never: [] }
const stands = (over: Partial<WorkedCase>) => weighCase({ ...base, ...over }).standing

/** Common practice, no source: what a careful technician would and would not sign. */
describe('what may be said of the first place', () => {
  test('nothing seen: nothing', () => expect(stands({ burn: undefined, log: [] }).kind).toBe('nothing'))

  test('patterns alone never make a cause clear, however many', () => {
    const { kind } = stands({
      engine: v6,
      burn: { 2: 'lean', 4: 'lean', 6: 'lean' },
      log: [code('P0174'), ...trim('idle', [3, 26]), ...trim('2500 rpm', [2, 6])],
    })
    expect(kind).toBe('leading-on-patterns')
  })

  test('one spray is one entry: it leads, named as what it rests on', () => {
    const standing = stands({ burn: { 2: 'lean' }, log: [spray('runner joint cylinder 2', 'response')] })
    expect(standing.kind).toBe('leading-on-one')
    expect(standing.restsOn?.first.id).not.toBe('leak-runner-joint')
  })

  test('the same spray again is the same entry', () => {
    const once = stands({ burn: { 2: 'lean' }, log: [spray('runner joint cylinder 2', 'response')] })
    const twice = stands({
      burn: { 2: 'lean' },
      log: [spray('runner joint cylinder 2', 'response'), spray('runner joint cylinder 2', 'response')],
    })
    expect([twice.kind, twice.share]).toEqual([once.kind, once.share])
  })

  test('a second kind of test of the same place makes it clear', () => {
    expect(
      stands({
        burn: { 2: 'lean' },
        log: [spray('runner joint cylinder 2', 'response'), smoke('runner joint cylinder 2', 'leak')],
      }).kind,
    ).toBe('clear')
  })

  test('a measurement of the cause itself may stand alone', () => {
    expect(stands({ burn: { 3: 'falling' }, log: compression([12.3, 12.5, 7.1, 12.2]) }).kind).toBe('clear')
    expect(stands({ log: pressure(240) }).kind).not.toBe('leading-on-one')
  })

  test('smoke at a place that says leak and no leak: not counted, and not clear', () => {
    const { kind } = stands({
      log: [
        ...FALLS,
        spray('vacuum hose', 'response'),
        cap('vacuum hose', 'fixed'),
        smoke('vacuum hose', 'leak'),
        smoke('vacuum hose', 'no leak'),
      ],
    })
    expect(kind).toBe('leading-contradicted')
  })

  test('two causes that no test has told apart are both named', () => {
    const standing = stands({ log: [...trim('idle', [4]), ...trim('2500 rpm', [16])] })
    expect(standing.kind).toBe('two')
    expect([standing.firsts[0]!.id, standing.second.id]).toEqual(['fuel-delivery-low', 'air-meter-low'])
  })

  test('both cylinders of a gasket between them are one first place', () => {
    const standing = stands({
      burn: { 2: 'falling', 3: 'falling' },
      log: compression([12.3, 6.9, 7.1, 12.2]),
    })
    expect([standing.kind, standing.firsts.map((f) => f.cylinder).sort()]).toEqual(['clear', [2, 3]])
  })

  test('sensitivity names the entry without which another would be first', () => {
    const { sensitivity } = stands({ log: [...FALLS, spray('throttle body gasket', 'response')] })
    expect(sensitivity.map((s) => s.first.id)).toContain('leak-vacuum-hose')
  })
})

describe('evidence that leans on the same ground', () => {
  /** How many times likelier all evidence makes a vacuum hose than something not listed. */
  const factorOf = (log: WorkedCase['log']) => {
    const { ledger } = weighCase({ ...base, burn: undefined, log })
    const hose = ledger.candidates.findIndex((c) => c.id === 'leak-vacuum-hose')
    return Math.exp(ledger.entries.reduce((sum, e) => sum + e.push[hose]!, 0))
  }

  test('a lean code beside lean trims adds less than half of what it says alone', () => {
    const [trims, codes, both] = [
      factorOf(FALLS),
      factorOf([code('P0171')]),
      factorOf([...FALLS, code('P0171')]),
    ]
    expect(codes).toBeGreaterThan(1)
    expect(both).toBeGreaterThan(trims)
    expect(both).toBeLessThan(trims * Math.sqrt(codes))
  })

  test('tests of another part of the chain count in full', () => {
    const [trims, silent, both] = [
      factorOf(FALLS),
      factorOf([spray('vacuum hose', 'no response')]),
      factorOf([...FALLS, spray('vacuum hose', 'no response')]),
    ]
    expect(both).toBeCloseTo(trims * silent, 9)
  })

  test('by ear counts less than by trace', () => {
    const first = (log: WorkedCase['log']) => weighCase({ ...base, log: [...FALLS, ...log] }).standing
    expect(first([heard('vacuum hose', 'response')]).share).toBeLessThan(
      first([spray('vacuum hose', 'response')]).share,
    )
  })
})

describe('repairs', () => {
  const joint = [spray('runner joint cylinder 2', 'response')]
  const one = { burn: { 2: 'lean' } as const }

  test('captures confirm, the word alone does not', () => {
    expect(
      stands({
        ...one,
        log: [...joint, repair('runner joint cylinder 2', 'fixed')],
        repair: 'repair confirmed',
      }).kind,
    ).toBe('clear')
    expect(stands({ ...one, log: [repair('runner joint cylinder 2', 'fixed')] }).kind).not.toBe('clear')
  })

  test('captures that show no change outweigh the word', () => {
    const weighed = weighCase({
      ...base,
      ...one,
      log: [...joint, repair('runner joint cylinder 2', 'fixed')],
      repair: 'no change',
    })
    const untouched = weighCase({ ...base, ...one, log: joint })
    expect(weighed.standing.share).toBeLessThan(untouched.standing.share)
  })

  test('several places repaired at once: what followed does not tell which it was', () => {
    const weighed = weighCase({
      ...base,
      ...one,
      log: [repair('runner joint cylinder 2'), repair('injector cylinder 2')],
      repair: 'repair confirmed',
    })
    expect(weighed.standing.kind).not.toBe('clear')
    expect(['leak-runner-joint|2', 'injector-restricted|2', 'leak-injector-seal|2']).toContain(
      firstOf(weighed),
    )
  })
})

test('a first place is called more than short only from the stated share on', () => {
  const stands = [...CASES, ...FURTHER_CASES, ...BLIND_CASES].map((c) => weighCase(c).standing)
  const short = stands.filter(({ kind }) => kind === 'leading-short')
  expect(short.length).toBeGreaterThan(0)
  for (const { share } of short) expect(share).toBeLessThan(0.8)
  for (const { kind, share } of stands)
    if (/^(clear|leading-(on|disputed))/.test(kind)) expect(share).toBeGreaterThanOrEqual(0.8)
})
