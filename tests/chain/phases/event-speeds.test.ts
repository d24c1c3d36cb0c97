import { expect, test } from 'vitest'
import { eventSpeeds } from '../../../src/chain/phases/event-speeds.ts'
import { loadLimits } from '../../../src/limits/limits.ts'
import type { MeasuredEvent } from '../../../src/metrics/figures.ts'
import { readTests } from '../../../src/test-log/read-tests.ts'
import { makeRandom } from '../../../src/maths/random.ts'
import { logJob, logRows } from '../../support/test-log.ts'

const CAPTURE = 'captures/a.csv'
const HEAD = 'at,step,place,reading,trace,from_s,to_s'
const event = (breakdownS: number, rpm: number | undefined): MeasuredEvent =>
  ({
    breakdownS,
    figures: {
      rpm:
        rpm === undefined ? { ok: false, why: 'not-visible' } : { ok: true, value: rpm, u: 1, unit: 'rpm' },
    },
  }) as never

/** One cylinder's events on an engine whose speed is `at(tS)`: each carries the mean speed of the cycle after it. */
function drive(at: (tS: number) => number, seconds: number): MeasuredEvent[] {
  const events: MeasuredEvent[] = []
  for (let tS = 0; tS < seconds;) {
    let turns = 0
    let then = tS
    while (turns < 2) {
      turns += (at(then) / 60) * 0.001
      then += 0.001
    }
    events.push(event(tS, 120 / (then - tS)))
    tS = then
  }
  return events
}

test('an event speaks of the cycle after it: its speed stands at the middle of that cycle (by hand: 600 rpm, two turns in 0.2 s)', () => {
  const of = (strokes: 2 | 4) =>
    eventSpeeds(
      [{ entry: { file: CAPTURE }, events: [event(3, 600), event(1, 600), event(2, undefined)] }],
      strokes,
    ).get(CAPTURE)!
  expect([...of(4).timesS].map((t) => Number(t.toFixed(9)))).toEqual([1.1, 3.1])
  expect([...of(2).timesS].map((t) => Number(t.toFixed(9)))).toEqual([1.05, 3.05])
})

test('a spray on a long capture is judged from its events', () => {
  const random = makeRandom(11)
  const wobble = Array.from({ length: 2000 }, () => 4 * random.gaussian())
  const speed = (tS: number) =>
    760 + 25 * Math.sin(2 * Math.PI * 0.4 * tS) + wobble[Math.floor(tS * 20)]! + (tS > 36 && tS < 39 ? 70 : 0)
  const speeds = eventSpeeds([{ entry: { file: CAPTURE }, events: drive(speed, 70) }], 4)
  const log = (rows: string) => ({
    log: logRows(`${HEAD}\n${rows}`),
    traces: new Map(),
    speeds,
    job: logJob(),
    limits: loadLimits(),
  })
  const { tests, problems } = readTests(log(`2026-03-04T09:10:00Z,spray,joint,propane,${CAPTURE},35,36.5`))
  expect(problems).toEqual([])
  expect([tests[0]!.finding, tests[0]!.observed]).toEqual(['response', false])
  expect(tests[0]!.effect!.low).toBeLessThan(70)
  expect(tests[0]!.effect!.high).toBeGreaterThan(70)
  expect(tests[0]!.computed['latency']!.low).toBeLessThan(1)
  expect(tests[0]!.computed['latency']!.high).toBeGreaterThan(1)
})

test('a capture whose events tell no speed is no trace', () => {
  const speeds = eventSpeeds([{ entry: { file: CAPTURE }, events: [event(1, undefined)] }], 4)
  const { problems } = readTests({
    log: logRows(`${HEAD}\n2026-03-04T09:10:00Z,spray,joint,propane,${CAPTURE},35,36.5`),
    traces: new Map(),
    speeds,
    job: logJob(),
    limits: loadLimits(),
  })
  expect(problems).toMatchObject([{ code: 'wrong-cell', args: { column: 'trace' } }])
})
