import { describe, expect, test } from 'vitest'
import { findEvents } from '../../src/ignition/find-events.ts'
import { loadLimits } from '../../src/limits/limits.ts'
import { median } from '../../src/maths/median.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { distributorCapture } from '../../src/model/capture-parameters.ts'
import { simulateCapture } from '../../src/model/simulate-capture.ts'
import { absent, measured } from '../../src/units/measured.ts'
import type { MeasuredEvent, Summary } from '../../src/metrics/figures.ts'
import { measureEvents } from '../../src/metrics/measure-events.ts'
import { summarise } from '../../src/metrics/summarise.ts'
import { engineOf } from '../support/judge-simulated.ts'
import { asCapture } from '../synthetic/as-capture.ts'

/** Truth: voltages drawn here; the recorder's limit and its missing of tops are put on by hand. */
const ABOUT = {
  stage: 'before',
  capture: 'captures/made.csv',
  engine: { strokes: 4 },
  instrument: { voltageUncertaintyPercent: 5, timeUncertaintyPpm: 100 },
} as const
const MEDIAN_KV = 9

type Seen = { kv: number } | { topKv: number; why: 'clipped' | 'under-sampled' }
const event = (seen: Seen, i: number, slow = false): MeasuredEvent =>
  ({
    ...ABOUT,
    cylinder: 1,
    number: i + 1,
    kind: 'firing',
    breakdownS: 0.15 * i,
    topKv: 'kv' in seen ? seen.kv : seen.topKv,
    figures: new Proxy(
      { firingKv: 'kv' in seen ? measured(seen.kv, 0.05, 'kV') : absent(seen.why) },
      { get: (figures, name) => (name in figures ? figures[name as 'firingKv'] : absent('not-recorded')) },
    ),
    class: 'level',
    flags: slow ? ['under_sampled'] : [],
  }) as unknown as MeasuredEvent
const firingOf = (events: MeasuredEvent[]): Summary<'kV'> => summarise(events, ABOUT)[0]!.figures.firingKv
const drawn = (seed: number, n = 20): number[] => {
  const random = makeRandom(seed)
  return Array.from({ length: n }, () => MEDIAN_KV + 1.5 * random.gaussian())
}
const cutAt = (limit: number, seed: number): MeasuredEvent[] =>
  drawn(seed).map((kv, i) => event(kv < limit ? { kv } : { topKv: limit, why: 'clipped' }, i))

describe('tops that the recorder cut off are counted as the highest', () => {
  test('a few of them move nothing: the median is that of all events, not of those left', () => {
    const whole = firingOf(drawn(3).map((kv, i) => event({ kv }, i)))
    const cut = firingOf(cutAt(10.6, 3))
    if (!whole.ok || !cut.ok) throw new Error('absent')
    expect(cut.value).toBeCloseTo(whole.value, 6)
  })

  test('many of them leave a lower bound alone', () => {
    const cut = firingOf(cutAt(9, 3))
    expect(cut).toMatchObject({ ok: false, why: 'clipped' })
    expect(!cut.ok && cut.atLeast).toBeGreaterThan(6.5)
    expect(!cut.ok && cut.atLeast).toBeLessThan(9)
  })

  test.each([8, 9, 10, 11])('what is stated holds the truth, cut at %d kV', (limit) => {
    const trials = 300
    const held = Array.from({ length: trials }, (_, seed) => {
      const s = firingOf(cutAt(limit, seed))
      if (s.ok) return s.low <= MEDIAN_KV && s.high >= MEDIAN_KV
      return s.atLeast === undefined || s.atLeast <= MEDIAN_KV
    })
    expect(held.filter(Boolean).length / trials).toBeGreaterThan(0.93)
  })
})

test('tops between slow samples: a bound, whatever each event is taken for', () => {
  const random = makeRandom(8)
  const slow = firingOf(
    drawn(4).map((kv, i) => event({ kv: kv * (0.4 + 0.5 * random.uniform()) }, i, i % 2 === 0)),
  )
  expect(slow).toMatchObject({ ok: false, why: 'under-sampled' })
  expect(!slow.ok && slow.atLeast).toBeLessThan(MEDIAN_KV)
})

/**
 * Whole captures of engines whose firing voltages are known (src/model), by recorders from fast to far too slow: what is
 * stated from both sides holds in 93 % and more, what is stated as a bound does in 95 %, and a value above what the
 * samples reach says so.
 */
describe('recorders that miss more and more of the tops', () => {
  const RATES = [1_000_000, 250_000, 120_000, 60_000]
  const trials = RATES.flatMap((sampleHz) =>
    Array.from({ length: 6 }, (_, i) => {
      const base = distributorCapture({ cylinders: 4, seed: 300 + i, durationS: 3 })
      const simulated = simulateCapture({ ...base, recorder: { ...base.recorder, sampleHz } })
      const engine = engineOf(base)
      const events = measureEvents(findEvents(asCapture(simulated), engine), {
        stage: 'before',
        engine,
        limits: loadLimits(),
      })
      return summarise(events, { ...ABOUT, engine }).map(({ cylinder, figures: { firingKv } }) => {
        const own = events.filter((e) => e.cylinder === cylinder)
        const truth = simulated.truth.events.filter((e) => e.cylinder === cylinder).map((e) => e.firingKv)
        return {
          firingKv,
          sampleHz,
          truthKv: median(truth)!,
          highestKv: Math.max(...own.filter((e) => e.figures.firingKv.ok).map((e) => e.topKv!)),
        }
      })
    }).flat(),
  )
  const share = (list: readonly boolean[]): number => list.filter(Boolean).length / list.length

  test('intervals and bounds hold', () => {
    const two = trials.flatMap(({ firingKv: f, truthKv }) =>
      f.ok ? [f.low <= truthKv && truthKv <= f.high] : [],
    )
    const one = trials.flatMap(({ firingKv: f, truthKv }) =>
      !f.ok && f.atLeast !== undefined ? [f.atLeast <= truthKv] : [],
    )
    expect([two.length > 30, one.length > 30]).toEqual([true, true])
    expect(share(two)).toBeGreaterThan(0.93)
    expect(share(one)).toBeGreaterThan(0.95)
  })

  test('no recorder of 60 kS/s states an upper end', () => {
    for (const { firingKv, sampleHz } of trials) if (sampleHz === 60_000) expect(firingKv.ok).toBe(false)
  })

  test('a value beyond every sample is marked as extrapolated, and how far the samples reach', () => {
    for (const { firingKv: f, highestKv } of trials)
      if (f.ok && f.value > highestKv) expect(f.extrapolatedFrom).toBeLessThan(f.value)
    const marked = trials.filter(({ firingKv: f }) => f.ok && f.extrapolatedFrom !== undefined)
    expect(marked.some((t) => t.sampleHz === 250_000)).toBe(true)
    expect(marked.some((t) => t.sampleHz === 1_000_000)).toBe(false)
  })
})
