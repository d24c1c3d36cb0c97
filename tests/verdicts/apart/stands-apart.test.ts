import { describe, expect, test } from 'vitest'
import { loadLimits } from '../../../src/limits/limits.ts'
import type { CylinderSummaries, Summary } from '../../../src/metrics/figures.ts'
import type { Unit } from '../../../src/units/measured.ts'
import { APART_WORDS } from '../../../src/verdicts/apart/apart-finding.ts'
import { standsApart } from '../../../src/verdicts/apart/index.ts'
import type { ReadCylinder, ReadInput } from '../../../src/verdicts/apart/reading.ts'

const limits = loadLimits()

interface Plug {
  kv: number
  ms?: number
  cycles?: number
  verdict?: ReadCylinder['verdict']
  polarity?: ReadCylinder['polarity']
}

/** A figure with 5 % of recorder gain (k = 2) and an own part. */
const figure = (value: number, u: number, unit: Unit): Summary => {
  const gain = 0.025 * value
  const half = 1.96 * Math.hypot(u, gain)
  const budget = [
    { source: 'scatter', u },
    { source: 'instrument', u: gain },
  ] as const
  return { ok: true, value, low: value - half, high: value + half, unit, mad: u, n: 17, budget }
}

const cylinder = ({ kv, ms = 1.4, cycles = 3.5, ...rest }: Plug, i: number): ReadCylinder => ({
  cylinder: i + 1,
  capture: 'captures/idle.csv',
  verdict: rest.verdict ?? 'level',
  polarity: rest.polarity,
  figures: {
    firingKv: figure(kv, 0.025 * kv, 'kV'),
    burnMs: figure(ms, 0.01 * ms, 'ms'),
    coilCycles: { ...figure(cycles, 0, 'cycles'), low: cycles, high: cycles },
  } as unknown as CylinderSummaries,
})

/** What stands apart on each cylinder, in the words of the records. */
function read(plugs: readonly Plug[], how: Partial<ReadInput> = {}): string[] {
  const all = plugs.map(cylinder)
  return all.map((own) =>
    standsApart({
      own,
      fellows: all.filter((c) => c !== own),
      pickup: 'common lead',
      running: 'idle',
      kvKnown: true,
      firingKnown: true,
      limits,
      ...how,
    })
      .map((a) => `${APART_WORDS[a.figure][a.direction]}, ${a.against}`)
      .join('; '),
  )
}
const kv = (...values: number[]): Plug[] => values.map((v) => ({ kv: v }))

// What the trade looks for (common practice, no source): even cylinders lie within about 3 kV, 5 to 15 kV at idle,
// 0.8 to 2.2 ms, 3 to 5 oscillations or more.
describe('firing voltage', () => {
  test.each<[string, Plug[], Partial<ReadInput>, string[]]>([
    ['14 kV among 8', kv(8, 8.2, 14, 7.9), {}, ['', '', 'firing voltage high, fellows', '']],
    ['4 kV among 7.5', kv(4, 7.5, 7.2, 7.3), {}, ['firing voltage low, fellows', '', '', '']],
    ['even within 3 kV', kv(7, 8.2, 9.4, 10), {}, ['', '', '', '']],
    [
      '4.5 kV apart where 12 are usual',
      kv(12, 12.3, 17, 11.8, 12),
      {},
      ['', '', 'firing voltage high, fellows', '', ''],
    ],
    ['the same 4.5 kV under load', kv(20, 20.5, 25, 19.5, 20), { running: 'snap' }, ['', '', '', '', '']],
    [
      'all at 19 kV',
      kv(19, 19.2, 18.8, 19.1),
      {},
      Array.from({ length: 4 }, () => 'firing voltage high, usual'),
    ],
    ['all at 19 kV, ratio unknown', kv(19, 19.2, 18.8, 19.1), { kvKnown: false }, ['', '', '', '']],
    [
      'one high, ratio unknown',
      kv(80, 82, 140, 79),
      { kvKnown: false },
      ['', '', 'firing voltage high, fellows', ''],
    ],
    ['all at 19 kV off idle', kv(19, 19.2, 18.8), { running: 'off idle' }, ['', '', '']],
    ['two gaps in series have no usual height', kv(16, 16.5, 17), { pickup: 'whole coil' }, ['', '', '']],
    ['two cylinders: nobody knows which', kv(8, 14), {}, ['', '']],
    [
      'three, two of them apart from each other',
      kv(8, 8.1, 14),
      {},
      ['', '', 'firing voltage high, fellows'],
    ],
    ['three that all differ', kv(7, 9, 11), {}, ['', '', '']],
    ['tops not to be judged', kv(8, 8.2, 14, 7.9), { firingKnown: false }, ['', '', '', '']],
  ])('%s', (_, plugs, how, expected) => {
    expect(read(plugs, how)).toEqual(expected)
  })
  test('a lean bank is no measure for a level one, nor its height a finding', () => {
    const lean = { kv: 12, ms: 1, verdict: 'lean' } as const
    const level = { kv: 8, ms: 1.5 }
    expect(read([lean, lean, lean, level, level, level])).toEqual(['', '', '', '', '', ''])
  })
  test('plugs that fire either way: every other one of a wasted-spark engine needs more', () => {
    const plus = (v: number): Plug => ({ kv: v, polarity: 'positive' })
    const minus = (v: number): Plug => ({ kv: v, polarity: 'negative' })
    const leads = { pickup: 'own lead' } as const
    expect(read([minus(7), plus(9.8), minus(7.2), plus(10)], leads)).toEqual(['', '', '', ''])
    const worn = ['', '', 'firing voltage high, fellows', '']
    expect(read([minus(8), plus(9.5), minus(15.5), plus(9.8)], leads)).toEqual(worn)
    const six = [minus(7), plus(9.8), minus(7.2), plus(10), minus(13), plus(9.9)]
    expect(read(six, leads)).toEqual(['', '', '', '', 'firing voltage high, fellows', ''])
  })
  test('a bound of one side is never held against the side it lacks', () => {
    const [own, ...fellows] = kv(4, 8, 8, 8).map(cylinder) as [ReadCylinder, ...ReadCylinder[]]
    const bound = { ...own.figures.firingKv, high: Number.POSITIVE_INFINITY } as Summary<'kV'>
    const missed = { ...own, figures: { ...own.figures, firingKv: bound } }
    const how = { pickup: 'common lead', running: 'idle', kvKnown: true, firingKnown: true, limits } as const
    expect(standsApart({ own: missed, fellows, ...how })).toEqual([])
    expect(standsApart({ own, fellows, ...how })).toHaveLength(1)
  })
})

describe('burn time and oscillations', () => {
  const line = { kv: 9 }
  test.each<[string, Plug[], string[]]>([
    [
      '0.6 ms among 1.4, and no ringing',
      [line, line, { ...line, ms: 0.6, cycles: 1 }],
      ['', '', 'burn time short, fellows; oscillations few, fellows'],
    ],
    ['2.1 ms among 1.4', [line, line, { ...line, ms: 2.1 }, line], ['', '', 'burn time long, fellows', '']],
    ['1.2 ms among 1.4', [line, line, { ...line, ms: 1.2 }, line], ['', '', '', '']],
    [
      'all at 0.7 ms: some systems burn so in order',
      [0.7, 0.71, 0.7].map((ms) => ({ ...line, ms })),
      ['', '', ''],
    ],
    [
      'all at 0.5 ms',
      [0.5, 0.51, 0.5].map((ms) => ({ ...line, ms })),
      Array.from({ length: 3 }, () => 'burn time short, usual'),
    ],
    [
      '3 oscillations among 4',
      [line, { ...line, cycles: 4 }, { ...line, cycles: 3 }, line],
      ['', '', '', ''],
    ],
    [
      'a misfiring one is read against those in order',
      [line, line, { ...line, ms: 0.6, verdict: 'misfiring' }],
      ['', '', 'burn time short, fellows'],
    ],
    [
      'an open circuit explains all of it',
      [line, line, { kv: 20, ms: 0.4, cycles: 0, verdict: 'open secondary' }],
      ['', '', ''],
    ],
  ])('%s', (_, plugs, expected) => {
    expect(read(plugs)).toEqual(expected)
  })
})

describe('false alarms are rare on engines in order', () => {
  let state = 20261129
  const uniform = () => (state = (state * 48271) % 2147483647) / 2147483647
  const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
  /** Plugs of one engine: means within 3 kV of each other, burn times within 8 %, what 17 events leave of their scatter. */
  const engine = (count: number, meanKv: number, turned = 1): Plug[] =>
    Array.from({ length: count }, (_, i) => {
      const own = (meanKv + 3 * (uniform() - 0.5)) * (i % 2 ? turned : 1)
      return {
        kv: own * (1 + 0.025 * normal()),
        ms: 1.4 * (1 + 0.04 * normal()),
        cycles: 3.5 + Math.round(uniform() - 0.5) / 2,
        ...(turned === 1 ? {} : { polarity: i % 2 ? ('positive' as const) : ('negative' as const) }),
      }
    })
  const rate = (engines: number, make: () => Plug[], how: Partial<ReadInput> = {}): number =>
    Array.from({ length: engines }, () => read(make(), how)).filter((said) => said.some((s) => s !== ''))
      .length / engines
  test.each([
    [3, 8],
    [4, 7],
    [6, 9],
    [8, 12],
  ])('%d cylinders about %d kV', (count, meanKv) => {
    expect(rate(400, () => engine(count, meanKv))).toBeLessThanOrEqual(0.025)
  })
  test.each([4, 6])(
    '%d leads of a wasted-spark engine, half of the plugs needing a quarter more',
    (count) => {
      expect(rate(400, () => engine(count, 8, 1.25), { pickup: 'own lead' })).toBeLessThanOrEqual(0.025)
    },
  )
})
