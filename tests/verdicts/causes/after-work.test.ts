import type { EvidenceKind } from '../../../src/limits/keys.ts'
import { describe, expect, test } from 'vitest'
import { loadCauses } from '../../../src/limits/load-causes.ts'
import { makeRandom } from '../../../src/maths/random.ts'
import { causesInForce } from '../../../src/verdicts/causes/override.ts'
import { weigh } from '../../../src/verdicts/causes/ledger.ts'
import { observe } from '../../../src/verdicts/causes/observation.ts'
import { robustnessOf } from '../../../src/verdicts/causes/robustness.ts'
import { standingOf } from '../../../src/verdicts/causes/standing.ts'
import {
  code,
  compression,
  firstOf,
  idOf,
  inline,
  limits,
  pressure,
  reads,
  repair,
  spray,
  table,
  trim,
  weighCase,
  type Row,
  type WorkedCase,
} from './case.ts'
import { CASES } from './cases.ts'

const first = (of: { ledger: Parameters<typeof firstOf>[0]['ledger'] }) =>
  idOf(firstOf(of as Parameters<typeof firstOf>[0]))
const base: Omit<WorkedCase, 'name' | 'log'> = { engine: inline(4), burn: 'all lean', first: '', never: [] }
const later = (row: Row): Row => ({ ...row, cells: { ...row.cells, stage: 'after' } })

/** What a master technician would conclude; common practice, no source. */
describe('what was read after the work is weighed', () => {
  test('a pressure read after a repair that changed nothing speaks of the same fault', () => {
    const log = [code('P0171'), ...trim('idle', [13]), ...trim('2500 rpm', [24]), repair('oxygen sensor')]
    const found = weighCase({
      ...base,
      name: '',
      log: [...log, ...pressure(220).map(later)],
      repair: 'no change',
      after: 'all lean',
    })
    expect(first(found)).toBe('fuel-delivery-low')
    expect(found.standing.kind).toBe('clear')
    expect(found.next?.id).toBe('repair-and-capture')
    expect(found.next?.target?.id).toBe('fuel-delivery-low')
    // Without it the pump is not measured, and the standing says less.
    const unread = weighCase({ ...base, name: '', log, repair: 'no change', after: 'all lean' })
    expect(unread.standing.kind).not.toBe('clear')
  })

  test('trims still high after a repair keep the car open: never clear, never nothing left, never that work again', () => {
    const found = weighCase({
      ...base,
      name: '',
      log: [
        ...trim('idle', [20]),
        ...trim('2500 rpm', [5]),
        spray('brake servo hose', 'response'),
        repair('brake servo hose'),
        ...trim('idle', [19], 'after'),
        ...trim('2500 rpm', [9], 'after'),
      ],
      repair: 'improved, not in order',
      after: 'all level',
    })
    expect(found.now).toBeDefined()
    expect(found.next).toBeDefined()
    expect(['capture-after', 'repair-and-capture', 'trims-two-speeds']).not.toContain(found.next!.id)
    expect(found.next!.target?.id).not.toBe('leak-brake-booster')
  })

  test('a cylinder without a spark after the gasket: the car now is about that cylinder', () => {
    const found = weighCase({
      ...base,
      name: '',
      log: [...trim('idle', [16]), spray('intake manifold', 'response'), repair('intake manifold gasket')],
      repair: 'worse',
      after: { 3: 'open secondary' },
    })
    expect(first(found)).toBe('leak-manifold')
    expect(first(found.now!)).toBe('secondary-cylinder')
    expect(found.now!.standing.firsts.map((f) => f.cylinder)).toEqual([3])
    expect(found.next!.target?.cylinder).toBe(3)
  })

  test('one of two injectors done: what is left is the other', () => {
    const found = weighCase({
      ...base,
      name: '',
      engine: inline(6),
      burn: { 2: 'lean', 5: 'lean' },
      log: [
        ...trim('idle', [9]),
        spray('runner 2', 'no response'),
        spray('runner 5', 'no response'),
        repair('injector 2', ''),
      ],
      repair: 'improved, not in order',
      after: { 5: 'lean' },
    })
    expect(found.now!.standing.firsts.map((f) => f.cylinder)).toEqual([5])
    expect(found.next!.target?.cylinder).toBe(5)
  })

  test('after a repair that is shown to have worked nothing is left to do', () => {
    const found = weighCase({
      ...base,
      name: '',
      log: [
        ...trim('idle', [20]),
        spray('vacuum tee', 'response'),
        repair('vacuum tee'),
        ...trim('idle', [3], 'after'),
      ],
      repair: 'repair confirmed',
      after: 'all level',
    })
    expect([found.now, found.next]).toEqual([undefined, undefined])
  })

  test('work of which nothing was recorded asks for captures', () => {
    const found = weighCase({
      ...base,
      name: '',
      log: [spray('vacuum tee', 'response'), repair('vacuum tee')],
    })
    expect(found.next?.id).toBe('capture-after')
  })
})

describe('the next step changes something', () => {
  test('an injector that leaks by every sign is tested or replaced: not trims at another speed', () => {
    const found = weighCase({
      ...base,
      name: '',
      engine: inline(6),
      burn: { 4: 'rich' },
      log: [
        code('P0172'),
        ...trim('idle', [-12]),
        ...pressure(350, 180),
        ...compression([11, 11, 11, 11, 11, 11]),
      ],
    })
    expect(first(found)).toBe('injector-leaking')
    expect(['swap-injector', 'injector-flow', 'read-plugs', 'repair-and-capture']).toContain(found.next!.id)
  })

  test('over the worked cases, no step whose outcomes all lead to the same cause, and none that was done', () => {
    for (const worked of CASES) {
      const { next } = weighCase(worked)
      if (!next || !('gainBits' in next)) continue
      const leads = new Set(next.outcomes.map((o) => o.lifts.candidate.id))
      expect(leads.size, `${worked.name}: ${next.id}`).toBeGreaterThan(1)
    }
  })

  test.each([
    ['plugs read', reads('plugs', 'cylinder 2', 0, { outcome: 'in order', value: '' }), 'read-plugs'],
    [
      'resistance measured',
      reads('secondary-resistance', 'cylinder 2', 0, { outcome: 'in order', value: '' }),
      'secondary-resistance',
    ],
    [
      'injectors compared',
      reads('injector-balance', 'cylinder 2', 0, { outcome: 'in order', value: '' }),
      'injector-flow',
    ],
  ])('%s: not proposed again for that cylinder, and weighed', (_, done, id) => {
    const of: WorkedCase = { ...base, name: '', burn: { 2: 'misfiring' }, log: [code('P0302')] }
    const before = weighCase(of)
    const after = weighCase({ ...of, log: [...of.log, done] })
    expect(after.ledger.posterior).not.toEqual(before.ledger.posterior)
    expect(
      after.next && 'gainBits' in after.next && after.next.id === id && after.next.target?.cylinder === 2,
    ).not.toBe(true)
  })
})

describe('standing with weights and priors off', () => {
  const context = { table, engine: inline(4) }
  const ledgerOf = (...kinds: readonly EvidenceKind[]) =>
    weigh(
      kinds.map((k) => observe(k)),
      context,
    )

  test('the same answer every time, a range that holds the share, and 1 where nothing could move it', () => {
    const ledger = ledgerOf('burn-all-lean', 'trims-fall')
    const { firsts, share } = standingOf(ledger, context, limits)
    const how = { factor: 2, lapse: table.lapse }
    const robust = robustnessOf(ledger, firsts, how)
    expect(robustnessOf(ledger, firsts, how)).toEqual(robust)
    expect(robust.low).toBeLessThanOrEqual(share)
    expect(robust.high).toBeGreaterThanOrEqual(share)
    expect(robustnessOf(ledger, firsts, { ...how, factor: 1 + 1e-9 }).keepsFirst).toBe(1)
    expect(robust.keepsFirst).toBeLessThan(1)
  })

  test('the order of the entries changes nothing', () => {
    const random = makeRandom(7)
    const ledger = ledgerOf('burn-all-lean', 'trims-fall', 'lambda-lean', 'idle-swings')
    const { firsts } = standingOf(ledger, context, limits)
    const mixed = { ...ledger, entries: [...ledger.entries].sort(() => random.uniform() - 0.5).reverse() }
    const how = { factor: 2, lapse: table.lapse }
    expect(robustnessOf(mixed, firsts, how).keepsFirst).toBe(robustnessOf(ledger, firsts, how).keepsFirst)
  })

  test('what is called clear survives; with a factor no table survives, nothing is called clear', () => {
    const clear = CASES.map((c) => weighCase(c)).filter((w) => w.standing.kind === 'clear')
    expect(clear.length).toBeGreaterThan(10)
    for (const { standing } of clear) expect(standing.robustness.keepsFirst).toBeGreaterThanOrEqual(0.95)
    const wild = { ...limits, weightsOffFactor: { ...limits.weightsOffFactor, value: 1e6 } } as typeof limits
    const kinds = clear.map((w) => standingOf(w.ledger, w.context, wild).kind)
    expect(kinds).not.toContain('clear')
    expect(kinds).toContain('leading-on-weights')
  })
})

test('a shop’s own prior of 40 on a vacuum hose with one smoke and one spray does not fail', () => {
  const { shipped } = loadCauses()
  const own = { causes: { 'leak-vacuum-hose': { ...table.causes['leak-vacuum-hose']!, prior: 40 } } }
  const { table: theirs } = causesInForce({ shipped, overrides: own })
  const context = { table: theirs, engine: inline(4) }
  const at = (place: string) => ({ at: { kind: 'places' as const, places: [place] } })
  for (const place of ['vacuum hose', 'brake hose', 'throttle gasket'])
    for (const other of ['vacuum hose', 'intake manifold', 'PCV hose']) {
      const ledger = weigh([observe('smoke-leak', at(place)), observe('spray-response', at(other))], context)
      expect(() => standingOf(ledger, context, limits)).not.toThrow()
    }
})
