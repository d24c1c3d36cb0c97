import { expect, test } from 'vitest'
import type { CaptureEvents, IgnitionEvent } from '../../src/ignition/event.ts'
import { loadLimits } from '../../src/limits/limits.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { FIGURE_UNITS, type FigureName } from '../../src/metrics/figures.ts'
import { measureEvents } from '../../src/metrics/measure-events.ts'
import { eventOf, HEALTHY, present, waveOf } from './analytic-wave.ts'

const about = { stage: 'before', engine: { strokes: 4 }, limits: loadLimits() } as const
const found = (events: readonly IgnitionEvent[]): CaptureEvents => ({
  capture: 'captures/made.csv',
  events,
  sync: [],
  polarity: [1],
  remarks: [],
})
const random = makeRandom(40)
const lean = { ...HEALTHY, line: (s: number) => (s < 0.5 ? 1.6 : 1.6 + 1.6 * (s - 0.5)) }
const events = [HEALTHY, lean, HEALTHY].map((shape, i) =>
  eventOf(waveOf(shape, random), { number: i + 1, breakdownS: 0.1 + 0.15 * i }),
)

test('every figure has a value or a reason, in its unit, with a budget that makes up its u', () => {
  const [first] = measureEvents(found(events), about)
  for (const name of Object.keys(FIGURE_UNITS) as FigureName[]) {
    const figure = first!.figures[name]
    if (!figure.ok) expect(name).toBe('energyMj')
    else {
      expect(figure.unit).toBe(FIGURE_UNITS[name])
      expect(figure.u).toBeGreaterThan(0)
      expect(Math.hypot(...figure.budget!.map((l) => l.u))).toBeCloseTo(figure.u, 12)
    }
  }
})

test('classes, speed, and the order of events', () => {
  const measured = measureEvents(found(events), about)
  expect(measured.map((m) => m.class)).toEqual(['level', 'lean', 'level'])
  expect(present(measured[0]!.figures.rpm).value).toBeCloseTo(800, 6)
  expect(measured[2]!.figures.rpm).toEqual({ ok: false, why: 'no-next-event' })
  // 0.4 of the burn at 1.6 kV a burn: 0.64 kV on 1.6 kV.
  const rise = present(measured[1]!.figures.lateRisePct)
  expect(Math.abs(rise.value - 40)).toBeLessThan(Math.min(4, 1.96 * rise.u))
})

test('a slow climb is flagged, a cut event is not measured', () => {
  const slow = eventOf(waveOf({ ...HEALTHY, sampleS: 1e-5 }, random))
  const cut = eventOf(waveOf(HEALTHY, random), { flags: ['partial'] })
  const [a, b] = measureEvents(found([slow, cut]), about)
  expect(a!.flags).toEqual(['under_sampled'])
  expect(b!.class).toBe('unclear')
  expect(b!.figures.midKv).toEqual({ ok: false, why: 'partial' })
})

test('the waves are not changed', () => {
  const event = eventOf(waveOf(HEALTHY, makeRandom(1)))
  const copy = Float64Array.from(event.wave.kv)
  measureEvents(found([event]), about)
  expect(event.wave.kv).toEqual(copy)
})
