import { describe, expect, test } from 'vitest'
import { runCapTrial, type CapTrial } from '../../support/cap-trials.ts'
import { drawIdle, IDLE_KINDS, simulateSpeed, type SimulatedIdle } from '../../support/simulate-speed.ts'
import { readLog, speedRecording } from '../../support/test-log.ts'
import { leakHunt } from '../../../src/verdicts/leak-hunt/leak-hunt.ts'
import { causesInForce } from '../../../src/verdicts/causes/override.ts'
import { loadCauses } from '../../../src/limits/load-causes.ts'

// Ports closed and opened on a trace; idles are simulated and invented, so that what really happened is known.

const TRIALS = 30
const FIRST = 700
const HOSE = 'brake hose'
const over = (plan: Omit<CapTrial, 'kind' | 'seed'>, count: (r: ReturnType<typeof runCapTrial>) => boolean) =>
  IDLE_KINDS.flatMap((kind) =>
    Array.from({ length: TRIALS }, (_, k) => ({ ...plan, kind, seed: FIRST + k })),
  ).filter((trial) => count(runCapTrial(trial))).length
const answers = ({ tests }: ReturnType<typeof runCapTrial>) => tests.some((t) => t.finding === 'response')
const ALL = IDLE_KINDS.length * TRIALS

describe('on simulated idles, with 20 s before, between and after', () => {
  test('two sound ports: an answer in at most the stated 5 % of traces', () => {
    const alarms = over({ restS: 20, ports: [HOSE, 'PCV hose'], draws: {} }, answers)
    expect(alarms / ALL).toBeLessThanOrEqual(0.05)
  })
  test('60 rpm off: found in at least 90 %, and the interval holds the change in at least 90 %', () => {
    let held = 0
    const found = over({ restS: 20, ports: [HOSE], draws: { [HOSE]: { rpm: -60, swing: 1 } } }, (r) => {
      const { change } = r.tests[0]!.computed
      if (change && change.low <= r.trueRpm[0]! && r.trueRpm[0]! <= change.high) held++
      return answers(r)
    })
    expect([found / ALL >= 0.9, held / ALL >= 0.9]).toEqual([true, true])
  })
  test('a hunt cut to a third: found in at least three of four, never called silent', () => {
    const plan = { restS: 20, ports: [HOSE], draws: { [HOSE]: { rpm: 0, swing: 0.33 } }, swingRpm: 80 }
    expect(over(plan, answers) / ALL).toBeGreaterThanOrEqual(0.75)
    expect(over(plan, (r) => r.tests[0]!.finding === 'no response') / ALL).toBeLessThanOrEqual(0.02)
  })
})

const FILE = 'traces/s.csv'
const HEAD = 'at,step,place,trace,from_s,to_s,outcome'
const idle = (part: Partial<SimulatedIdle> = {}): SimulatedIdle => ({
  ...drawIdle('steady swing', { seconds: 70, seed: 5, responses: [] }),
  rateHz: 10,
  swingRpm: 60,
  swingHz: 0.45,
  noiseRpm: 5,
  pushS: undefined,
  lagS: 0.25,
  ...part,
})
const capped = (simulated: SimulatedIdle, ...rows: string[]) => {
  const { rpm } = simulateSpeed(simulated, 99)
  const at = rows.map((row, i) => `2026-03-04T09:${String(10 + i)}:00Z,${row}`)
  return readLog([HEAD, ...at].join('\n'), { recordings: [speedRecording(FILE, rpm, 1 / simulated.rateHz)] })
}
const off = { closed: [{ fromS: 22, toS: 46, rpm: -80, swing: 1 }] }
const keys = (t: { says: readonly { key: string }[] }) => t.says.map((s) => s.key)

describe('one port', () => {
  test('closed and opened in one row: its change with the sign of the closing, a fact that is sure', () => {
    const [cap] = capped(idle(off), `cap,${HOSE},${FILE},22,46,`).tests
    expect([cap!.finding, cap!.observed]).toEqual(['response', false])
    expect(cap!.effect!.high).toBeLessThan(0)
    expect(cap!.effect!.low).toBeLessThan(-80)
    expect(cap!.facts).toEqual([{ kind: 'cap', place: HOSE, changed: true, stage: 'before', sure: true }])
  })
  test('closed in one row and opened in another: the same, said of both', () => {
    const { tests } = capped(idle(off), `cap,${HOSE},${FILE},22,,`, `uncap,${HOSE},${FILE},46,,`)
    expect(tests.map((t) => t.finding)).toEqual(['response', 'response'])
    expect(tests[0]!.effect).toEqual(tests[1]!.effect)
    expect(tests[0]!.effect!.high).toBeLessThan(0)
  })
  test('a speed that falls at closing and falls again at opening is no port that draws air', () => {
    const twice = {
      closed: [
        { fromS: 22, toS: 99, rpm: -80, swing: 1 },
        { fromS: 46, toS: 99, rpm: -80, swing: 1 },
      ],
    }
    expect(capped(idle(twice), `cap,${HOSE},${FILE},22,46,`).tests[0]!.finding).not.toBe('response')
  })
  test('a swing that goes: found by it', () => {
    const calm = { closed: [{ fromS: 22, toS: 46, rpm: 0, swing: 0.2 }] }
    const [cap] = capped(idle({ ...calm, swingRpm: 80 }), `cap,${HOSE},${FILE},22,46,`).tests
    expect(cap!.finding).toBe('response')
    expect(cap!.computed['swingChange']!.high).toBeLessThan(-25)
  })
  test('nothing: no response, a change too small to count, and a swing that is not shown to change', () => {
    const [cap] = capped(idle(), `cap,${HOSE},${FILE},22,46,`).tests
    const { change, swingChange } = cap!.computed
    expect(cap!.finding).toBe('no response')
    expect(Math.abs(change!.value)).toBeLessThan(15)
    expect(swingChange!.low).toBeLessThan(0)
    expect(swingChange!.high).toBeGreaterThan(0)
  })
  test('the hand says otherwise: the trace decides, both are shown', () => {
    const [cap] = capped(idle(), `cap,${HOSE},${FILE},22,46,fixed`).tests
    expect([cap!.finding, keys(cap!).includes('tests.spray.ear-differs')]).toEqual(['no response', true])
  })
  test('too little idle to tell: what was seen stands, with what the trace lacks', () => {
    const short = { ...idle(off), seconds: 30 }
    const [cap] = capped(short, `cap,${HOSE},${FILE},3,6,fixed`).tests
    expect([cap!.finding, cap!.observed]).toEqual(['response', true])
    expect(keys(cap!)[0]).toBe('tests.cap.changed')
    expect(keys(cap!).length).toBeGreaterThan(1)
  })
  test('a row without an instant is read by what was seen, as before', () => {
    const { tests, problems } = capped(idle(off), `cap,${HOSE},${FILE},,,fixed`)
    expect([problems, tests[0]!.finding, tests[0]!.observed]).toEqual([[], 'response', true])
  })
  test('opened before it was closed, and off the trace: one clear error each', () => {
    expect(capped(idle(), `cap,${HOSE},${FILE},46,22,`).problems.map((p) => p.code)).toEqual(['wrong-cell'])
    expect(capped(idle(), `cap,${HOSE},${FILE},500,,`).problems.map((p) => p.code)).toEqual([
      'spray-outside-trace',
    ])
  })
})

test('every further port asks more of each: all are corrected together', () => {
  const weak = { closed: [{ fromS: 20, toS: 40, rpm: -80, swing: 1 }] }
  const rows = [
    `cap,${HOSE},${FILE},20,40,`,
    `cap,PCV hose,${FILE},60,80,`,
    `cap,purge hose,${FILE},100,120,`,
  ]
  const long = { ...idle(weak), seconds: 140 }
  const alone = capped(long, rows[0]!).tests[0]!.pValue!
  const three = capped(long, ...rows).tests[0]!.pValue!
  expect(three).toBeGreaterThanOrEqual(alone * 2)
})

test('a port opened on the trace is not left closed; one that is not, is', () => {
  const { table } = causesInForce(loadCauses())
  const left = (row: string) =>
    leakHunt(capped(idle(off), row).tests, { engine: { cylinders: [1, 2, 3, 4], banks: undefined }, table })!
      .leftCapped
  expect(left(`cap,${HOSE},${FILE},22,46,`)).toEqual([])
  expect(left(`cap,${HOSE},${FILE},22,,`)).toEqual([{ place: HOSE, test: 0, brakes: true }])
})
