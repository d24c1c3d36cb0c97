import type { EvidenceKind } from '../../../src/limits/keys.ts'
import { describe, expect, test } from 'vitest'
import { posteriorOf, ranked, weigh, without } from '../../../src/verdicts/causes/ledger.ts'
import { candidateKey } from '../../../src/verdicts/causes/candidates.ts'
import { observe } from '../../../src/verdicts/causes/observation.ts'
import { parseCauses } from '../../../src/verdicts/causes/schema.ts'
import { inline, table as shipped, v6 } from './case.ts'

test.each([2, 3, 4, 6, 8, 12])(
  'one lean cylinder of %d and nothing else: its causes stand to what is not listed as on any other engine',
  (count) => {
    const { candidates, posterior } = weigh(
      [observe('burn-cylinder-lean', { at: { kind: 'cylinders', cylinders: [1] } })],
      { table: shipped, engine: inline(count) },
    )
    const share = (id: string, cylinder?: number) =>
      posterior[candidates.findIndex((c) => c.id === id && c.cylinder === cylinder)]!
    const lapse = shipped.lapse
    const odds = share('injector-restricted', 1) / (share('other') - lapse)
    // by hand: priors 5 (a quarter of it at this cylinder) and 8, ratio 14 at four cylinders: 5 / 4 * 14 / 8
    expect(odds).toBeCloseTo(((5 / 4) * 14) / 8, 9)
  },
)

test('an engine without a part is not thought to have lost it', () => {
  const seen = [observe('burn-all-circuit')]
  const has = (ignition: 'distributor' | 'coil-per-cylinder') =>
    weigh(seen, { table: shipped, engine: { ...inline(4), ignition } }).candidates.some(
      (c) => c.id === 'secondary-shared',
    )
  expect([has('distributor'), has('coil-per-cylinder')]).toEqual([true, false])
})

describe('posterior', () => {
  test('the textbook test: 1 in 100 ill, found in 99 of 100 ill, in 5 of 100 well', () => {
    // Bayes' rule by hand: 0.01 * 0.99 / (0.01 * 0.99 + 0.99 * 0.05) = 0.0099 / 0.0594 = 1 / 6
    const push = [Math.log(0.99 / 0.05), 0]
    expect(posteriorOf([{ prior: 0.01 }, { prior: 0.99 }], [{ push }])[0]).toBeCloseTo(1 / 6, 12)
    // found twice, independently: odds 1/99 * 19.8^2 = 3.96, so 3.96 / 4.96
    expect(posteriorOf([{ prior: 0.01 }, { prior: 0.99 }], [{ push }, { push }])[0]).toBeCloseTo(
      3.96 / 4.96,
      12,
    )
  })

  test('three causes, two findings, worked by hand', () => {
    // priors 0.5 0.3 0.2; first finding 4 1 1, second 0.5 2 1: 1.0, 0.6, 0.2 of 1.8
    const logs = (values: number[]) => ({ push: values.map(Math.log) })
    const shares = posteriorOf(
      [{ prior: 0.5 }, { prior: 0.3 }, { prior: 0.2 }],
      [logs([4, 1, 1]), logs([0.5, 2, 1])],
    )
    ;[1 / 1.8, 0.6 / 1.8, 0.2 / 1.8].forEach((p, i) => expect(shares[i]).toBeCloseTo(p, 12))
  })

  test('very long ledgers neither overflow nor vanish', () => {
    const many = Array.from({ length: 500 }, () => ({ push: [5, -5] }))
    expect(posteriorOf([{ prior: 0.5 }, { prior: 0.5 }], many)).toEqual([1, 0])
  })
})

/** A table small enough to reckon by hand: priors 2, 1, 1; one group that repeats to the power 0.5. */
const small = parseCauses({
  origin: 'project-judgement',
  cylinders: 4,
  unsure: 0.5,
  lapse: 0,
  causes: {
    one: { prior: 2, where: 'engine', families: ['pair'], places: ['left thing'] },
    two: { prior: 1, where: 'cylinder', families: ['pair'], places: ['right thing'] },
    'leak-at-place': { prior: 1, where: 'place', families: [], places: [] },
    other: { prior: 1, where: 'engine', families: [], places: [] },
  },
  groups: {
    same: { repeat: 0.5, shows: 'pattern', meaning: 'for this test' },
    apart: { repeat: 1, shows: 'part', meaning: 'for this test' },
  },
  evidence: {
    a: { group: 'same', likelihood: { one: 9 } },
    b: { group: 'same', likelihood: { pair: 4 } },
    c: { group: 'apart', likelihood: { two: { here: 8, elsewhere: 0.5 } } },
    d: { group: 'same', likelihood: { two: 0.25 }, otherwise: 1 },
  },
  tests: {},
  follow_ups: {},
})
const context = { table: small, engine: inline(2) }
/** Of a kind that only the small table has. */
const made = (kind: string, more?: Parameters<typeof observe>[1]) => observe(kind as EvidenceKind, more)
const share = (observations: Parameters<typeof weigh>[0], key: string) =>
  ranked(weigh(observations, context)).find((r) => candidateKey(r.candidate) === key)!.share

describe('the ledger', () => {
  test('priors are shared out over seats; without evidence they stand', () => {
    expect(share([], 'one')).toBeCloseTo(2 / 4, 12)
    expect(share([], 'two|1')).toBeCloseTo(0.5 / 4, 12)
    expect(share([], 'other')).toBeCloseTo(1 / 4, 12)
  })

  test('of a group the entry that moves most counts in full, the other to its power, whichever comes first', () => {
    // one: 2 * 9 * 4^0.5 = 36; two: 0.5 * 4^0.5 = 1 each; other 1: 36 / 39
    expect(share([made('a'), made('b')], 'one')).toBeCloseTo(36 / 39, 12)
    expect(share([made('b'), made('a')], 'one')).toBeCloseTo(36 / 39, 12)
  })

  test('evidence of different groups multiplies in full; here and elsewhere are told apart', () => {
    // one 2 * 9 = 18; two|1 0.5 * 8 = 4; two|2 0.5 * 0.5 = 0.25; other 1
    const seen = [made('a'), made('c', { at: { kind: 'cylinders', cylinders: [1] } })]
    expect(share(seen, 'two|1')).toBeCloseTo(4 / 23.25, 12)
    expect(share(seen, 'two|2')).toBeCloseTo(0.25 / 23.25, 12)
  })

  test('a place whose cylinder is not named is shared out between the seats', () => {
    // two|1 and two|2: half here: 0.5 * 8 + 0.5 * 0.5 = 4.25, times 0.5; one 2; other 1
    expect(share([made('c', { at: { kind: 'places', places: ['the right thing'] } })], 'two|1')).toBeCloseTo(
      2.125 / 7.25,
      12,
    )
  })

  test('what rests on ear or eye counts less, what is contradicted not at all', () => {
    expect(share([made('a', { sure: false })], 'one')).toBeCloseTo((2 * 3) / (2 * 3 + 1 + 1), 12)
    expect(share([made('a', { contradicted: true })], 'one')).toBeCloseTo(2 / 4, 12)
  })

  test('without an entry the rest of its group is weighed anew', () => {
    const ledger = weigh([made('a'), made('b')], context)
    const left = without(
      ledger,
      ledger.entries.findIndex((e) => (e.observation.kind as string) === 'a'),
      context,
    )
    expect(ranked(left)[0]!.share).toBeCloseTo(8 / (8 + 4 + 1), 12)
  })

  test('an entry that bears on no cause more than on another is no entry', () => {
    expect(weigh([made('unknown-kind')], context).entries).toEqual([])
  })
})

test('a share is kept for what is not listed, and the ranks of the others stay', () => {
  const seen = [
    observe('burn-cylinder-lean', { at: { kind: 'cylinders', cylinders: [2] }, args: { cylinders: '2' } }),
    observe('repair-confirmed', {
      at: { kind: 'places', places: ['runner joint cylinder 2'] },
      args: { place: 'runner joint cylinder 2' },
    }),
  ]
  const kept = weigh(seen, { table: shipped, engine: v6 })
  const bare = weigh(seen, { table: { ...shipped, lapse: 0 }, engine: v6 })
  const keys = (l: typeof kept) =>
    ranked(l)
      .filter((r) => r.candidate.id !== 'other')
      .map((r) => candidateKey(r.candidate))
  expect(keys(kept)).toEqual(keys(bare))
  expect(kept.posterior.find((_, i) => kept.candidates[i]!.id === 'other')).toBeGreaterThanOrEqual(
    shipped.lapse,
  )
})
