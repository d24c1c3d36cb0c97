import { beforeAll, describe, expect, test } from 'vitest'
import type { Capture } from '../../src/capture/capture.ts'
import { findEvents } from '../../src/ignition/find-events.ts'
import type { Engine } from '../../src/job/schema.ts'
import { degrade, type Damage } from '../support/degrade-capture.ts'
import { FIXTURES, readFixture, type FixtureName, type TruthEvent } from '../support/fixture-captures.ts'
import { p95, scoreEvents } from '../support/score-events.ts'

/** Truth: circuit simulation, see tests/support/fixture-captures.ts. */
const read = new Map<FixtureName, { engine: Engine; captures: { capture: Capture; truth: TruthEvent[] }[] }>()
beforeAll(async () => {
  for (const name of FIXTURES) read.set(name, await readFixture(name))
})

const scores = (name: FixtureName, damage: Damage = {}) => {
  const { engine, captures } = read.get(name)!
  return captures.map(({ capture, truth }) => {
    const seen = degrade(capture, damage)
    const found = findEvents(seen, engine)
    return { found, seen, score: scoreEvents(found, seen, truth) }
  })
}

describe.each(FIXTURES)('%s', (name) => {
  test('every breakdown is found, none is invented, cylinder and kind are right', () => {
    for (const { score } of scores(name)) {
      expect(score.due).toBeGreaterThan(50)
      expect(score.missed).toEqual([])
      expect(score.extra).toEqual([])
      expect(score).toMatchObject({ wrongCylinder: 0, untold: 0, wrongKind: 0 })
    }
  })

  // The truth is written with six digits: 5 us either way beyond the first second, twice that for a difference.
  test("instants: breakdown and dwell within a sample and the truth's own digits, burn within 1.5 % (95th percentile)", () => {
    for (const { score, seen } of scores(name)) {
      expect(score.burnPct.length).toBeGreaterThan(50)
      expect(p95(score.breakdownUs)).toBeLessThan(1e6 * seen.sampleS + 5)
      expect(p95(score.burnPct)).toBeLessThan(1.5)
      expect(score.dwellUs.length).toBe(score.burnPct.length)
      expect(p95(score.dwellUs)).toBeLessThan(1e6 * seen.sampleS + 10)
    }
  })

  test('upside down gives the same events', () => {
    const { engine, captures } = read.get(name)!
    for (const { capture } of captures) {
      const auto = {
        ...capture,
        channels: capture.channels.map((c) => ({ ...c, entry: { ...c.entry, polarity: 'auto' as const } })),
      }
      const plain = findEvents(auto, engine)
      const turned = findEvents(degrade(auto, { upsideDown: true }), engine)
      const key = (f: typeof plain) => f.events.map((e) => [e.cylinder, e.kind, e.breakdownS, e.endS])
      expect(turned.polarity).toEqual(plain.polarity.map((p) => (p === 0 ? 0 : -p)))
      expect(key(turned)).toEqual(key(plain))
    }
  })
})

test('a wave holds the event above its own rest, from before dwell to after the ring', () => {
  const [first] = scores('a-four-level')
  for (const { wave, breakdownS, endS } of first!.found.events) {
    const burnS = (wave.sparkEnd! - wave.breakdown) * wave.sampleS
    expect(burnS).toBeCloseTo(endS! - breakdownS, 9)
    expect(wave.dwellStart).toBeGreaterThan(0)
    expect(wave.kv.length * wave.sampleS).toBeLessThan(12e-3)
    expect(Math.abs(wave.baselineKv)).toBeLessThan(0.02)
    expect(wave.kv[wave.peak]).toBe(Math.max(...wave.kv))
  }
})

/** Recorders a shop may have. Burn limits: the finest that the sample spacing and steps leave, twice the fixture's own. */
const RECORDERS: readonly { name: string; damage: Damage; burnPct: number }[] = [
  { name: '250 kS/s', damage: { every: 2 }, burnPct: 1.5 },
  { name: '100 kS/s, between the firing lines', damage: { every: 5, phase: 1 }, burnPct: 1.5 },
  { name: '100 kS/s, steps of 0.16 kV', damage: { every: 5, stepKv: 0.16 }, burnPct: 2 },
  { name: '100 kS/s, steps of 0.3 kV, noise', damage: { every: 5, stepKv: 0.3, noiseKv: 0.05 }, burnPct: 3 },
  { name: 'noise of 0.1 kV', damage: { noiseKv: 0.1 }, burnPct: 2 },
  { name: 'hum of 0.1 kV', damage: { humKv: 0.1 }, burnPct: 1.5 },
  { name: 'drift of 0.3 kV/s', damage: { driftKvPerS: 0.3 }, burnPct: 1.5 },
  { name: 'cut at 5 kV', damage: { limitKv: 5 }, burnPct: 1.5 },
]
describe.each(RECORDERS)('a recorder with $name', ({ damage, burnPct }) => {
  test.each(['a-four-level', 'c-eight-cyl5-lean'] as const)('%s', (name) => {
    const [{ score }] = scores(name, damage) as [ReturnType<typeof scores>[0]]
    expect(score.missed).toEqual([])
    expect(score.extra).toEqual([])
    expect(score).toMatchObject({ wrongCylinder: 0, untold: 0 })
    expect(p95(score.burnPct)).toBeLessThan(burnPct)
  })
})

test('wasted sparks on a slow and coarse recorder keep their kind', () => {
  for (const { score } of scores('e-four-wasted-leads', { every: 2, stepKv: 0.16 })) {
    expect(score).toMatchObject({ missed: [], extra: [], wrongCylinder: 0, untold: 0, wrongKind: 0 })
  }
})

describe('remarks name what the recorder hides', () => {
  const codes = (damage: Damage) => scores('a-four-level', damage)[0]!.found.remarks.map((r) => r.code)
  test.each<[string, Damage, string[]]>([
    ['a good one', {}, []],
    ['too slow', { every: 5 }, ['sampling-slow']],
    ['tops cut', { limitKv: 5 }, ['clipped-top']],
    ['hum', { humKv: 0.08, humHz: 60 }, ['mains-hum']],
  ])('%s', (_, damage, wanted) => expect(codes(damage)).toEqual(wanted))

  test('lines cut forbid the mixture', () => {
    const { remarks } = scores('c-eight-cyl5-lean', { limitKv: 1.7 })[0]!.found
    expect(remarks.find((r) => r.code === 'clipped-line')?.forbids).toEqual(['mixture'])
  })
})

test('hum is taken off: levels as without it, to 2 % of the line', () => {
  const plain = scores('c-eight-cyl5-lean')[0]!.found.events
  const hummed = scores('c-eight-cyl5-lean', { humKv: 0.1 })[0]!.found.events
  const middle = (e: (typeof plain)[0]): number => {
    const at = Math.round((e.wave.breakdown + e.wave.sparkEnd!) / 2)
    return e.wave.kv.subarray(at - 20, at + 20).reduce((a, b) => a + b, 0) / 40
  }
  const off = plain
    .slice(1, -1)
    .map((e, i) => Math.abs(middle(hummed[i + 1]!) - middle(e)))
    .sort((a, b) => a - b)
  expect(p95(off)).toBeLessThan(0.02 * 1.6)
})

test('the same capture gives the same events, and is not changed', () => {
  const { engine, captures } = read.get('c-eight-cyl5-lean')!
  const { capture } = captures[0]!
  const digest = (values: ArrayLike<number>): number =>
    Array.from(values).reduce((a, v, i) => a + v * (1 + (i % 97)), 0)
  const all = (found: ReturnType<typeof findEvents>) =>
    found.events.map((e) => ({ ...e, wave: { ...e.wave, kv: digest(e.wave.kv) } }))
  const before = capture.channels.map((c) => digest(c.data))
  const once = all(findEvents(capture, engine))
  expect(all(findEvents(capture, engine))).toEqual(once)
  expect(capture.channels.map((c) => digest(c.data))).toEqual(before)
})
