import { describe, expect, test } from 'vitest'
import { loadLimits } from '../../../src/limits/limits.ts'
import { riseAgainstFellows } from '../../../src/verdicts/fellows/rise-against-fellows.ts'

const limits = loadLimits()
const compare = (...rises: number[]) =>
  riseAgainstFellows(
    rises.map((pct, i) => ({ cylinder: i + 1, pct, u: 1.5 })),
    limits,
  )
const differences = (...rises: number[]) =>
  [...compare(...rises).values()].map(({ difference }) =>
    difference.ok ? Math.round(difference.interval.value) : undefined,
  )

// Which cylinders are the level ones, as a technician sees it at a glance (common practice, no source).
describe('each cylinder is compared with the level ones among its fellows', () => {
  test('a lean bank stands above the level one, and the level one is level', () => {
    expect(differences(38, 37, 39, -2, -2, -2)).toEqual([40, 39, 41, 0, 0, 0])
  })
  test('all but one lean: the one that is level is the measure', () => {
    expect(differences(38, 38, 38, 1)).toEqual([37, 37, 37, undefined])
  })
  test('one falls, the others are level', () => {
    expect(differences(-35, 1, 1, 1)).toEqual([-36, 0, 0, 0])
  })
  test('two cylinders, one lean', () => {
    expect(differences(40, 2)).toEqual([38, undefined])
  })
  test('all climb alike: compared with each other, and said not to be level', () => {
    const all = compare(40, 41, 39, 40)
    expect([...all.values()].every(({ fellowsLevel }) => !fellowsLevel)).toBe(true)
    expect(differences(40, 41, 39, 40)).toEqual([0, 1, -1, 0])
  })
  test('two groups inside the limits: open which is the odd one, so the interval spans both', () => {
    const of = compare(12, -12, 12, -12).get(1)!.difference
    expect(of.ok && of.interval.low < 0 && of.interval.high > 20).toBe(true)
  })
})

test('the error rate is held over the engine: at most 5 % of engines of eight alike show any difference', () => {
  expect(falseAlarms(8, 400)).toBeLessThan(0.06)
})

/** Share of engines of alike cylinders on which any interval leaves out no difference at all. */
function falseAlarms(cylinders: number, engines: number): number {
  let state = 12345
  const uniform = () => (state = (state * 16807) % 2147483647) / 2147483647
  const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
  let alarms = 0
  for (let i = 0; i < engines; i++) {
    const all = compare(...Array.from({ length: cylinders }, () => 1.5 * normal()))
    if ([...all.values()].some(({ difference: d }) => d.ok && (d.interval.low > 0 || d.interval.high < 0)))
      alarms++
  }
  return alarms / engines
}
