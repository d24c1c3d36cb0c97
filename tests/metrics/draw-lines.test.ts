import { expect, test } from 'vitest'
import type { CaptureEvents } from '../../src/ignition/event.ts'
import { loadLimits } from '../../src/limits/limits.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { drawCylinders } from '../../src/metrics/draw-lines.ts'
import { measureEvents } from '../../src/metrics/measure-events.ts'
import type { DrawnCylinder } from '../../src/records/drawn-traces.ts'
import { PICKED_EARLY_MS } from '../../src/metrics/spark-line.ts'
import { eventOf, HEALTHY, waveOf } from './analytic-wave.ts'

const random = makeRandom(12)
const events = Array.from({ length: 50 }, (_, i) =>
  eventOf(waveOf({ ...HEALTHY, phase: random.uniform() }, random), {
    number: i + 1,
    breakdownS: 0.1 * i,
    cylinder: i < 46 ? 2 : 1,
    flags: i === 0 ? ['partial'] : [],
  }),
)
const found: CaptureEvents = { capture: 'captures/made.csv', events, sync: [], polarity: [1], remarks: [] }
const measured = measureEvents(found, { stage: 'before', engine: { strokes: 4 }, limits: loadLimits() })
const drawn: readonly DrawnCylinder[] = drawCylinders(found, measured)

test('one a cylinder, in order, thinned to 40 events of 150 points', () => {
  expect(drawn.map((d) => [d.cylinder, d.shown, d.of])).toEqual([
    [1, 4, 4],
    [2, 40, 45],
  ])
  for (const line of drawn[1]!.events) expect(line.x.length).toBeLessThanOrEqual(150)
})

test('the median line follows the truth', () => {
  const { x, y } = drawn[1]!.median
  x.forEach((ms, k) => {
    if (ms > 0.05 && ms < 1.35) expect(Math.abs(y[k]! - HEALTHY.line(ms / HEALTHY.burnMs))).toBeLessThan(0.03)
  })
})

test('marks at 10, 50 and 90 % of the burn', () => {
  expect(drawn[1]!.marks.map((m) => m.share)).toEqual([10, 50, 90])
  for (const mark of drawn[1]!.marks) {
    expect(Math.abs(mark.ms - (mark.share / 100) * (HEALTHY.burnMs + PICKED_EARLY_MS))).toBeLessThan(0.002)
    expect(Math.abs(mark.kv - HEALTHY.line(mark.share / 100))).toBeLessThan(0.01)
  }
})

test('lists of unlike length are refused', () => expect(() => drawCylinders(found, [])).toThrow(RangeError))
