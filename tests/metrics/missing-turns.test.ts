import { expect, test } from 'vitest'
import { missingTurns, type Turn } from '../../src/metrics/missing-turns.ts'

/** Events of cylinders 1 to 4 in the order 1 3 4 2, cycle 0.16 s; those named `cylinder/turn` are left out. */
function engine(turns: number, without: readonly string[] = []): Turn[] {
  return [1, 3, 4, 2].flatMap((cylinder, place) =>
    Array.from({ length: turns }, (_, k) => k)
      .filter((k) => !without.includes(`${cylinder}/${k}`))
      .map((k) => ({ cylinder, breakdownS: 0.16 * k + 0.04 * place })),
  )
}

test('nothing missing in a whole engine', () => {
  expect([1, 2, 3, 4].map((c) => missingTurns(engine(10), c))).toEqual([0, 0, 0, 0])
})

test('turns left out are counted, at the ends and in a row too', () => {
  expect(missingTurns(engine(10, ['3/0', '3/4', '3/5', '3/8']), 3)).toBe(4)
  expect(missingTurns(engine(10, ['3/0', '3/4', '3/5', '3/8']), 1)).toBe(0)
})

test('a cylinder without any event misses every turn of the clock', () => {
  const none = Array.from({ length: 10 }, (_, k) => `4/${k}`)
  expect(missingTurns(engine(10, none), 4)).toBe(9)
})

test('a turn missing on the clock itself is no turn missing elsewhere', () => {
  const without = ['1/3', '2/3', '4/6']
  expect([1, 2, 3, 4].map((c) => missingTurns(engine(10, without), c))).toEqual([1, 1, 0, 1])
})

test('an event whose cylinder could not be told may be the one looked for', () => {
  const events = engine(10, ['3/4']).concat({ cylinder: undefined, breakdownS: 0.16 * 4 + 0.041 })
  expect(missingTurns(events, 3)).toBe(0)
})

test('alone, its own rhythm tells', () => {
  const alone = [0, 0.16, 0.32, 0.64, 0.8].map((breakdownS) => ({ cylinder: 1, breakdownS }))
  expect(missingTurns(alone, 1)).toBe(1)
})

/** The same engine with a cycle that takes as long as said. */
function atSpeeds(cycleS: readonly number[], without: readonly string[] = []): Turn[] {
  const startS = cycleS.map((_, k) => cycleS.slice(0, k).reduce((sum, s) => sum + s, 0))
  return [1, 3, 4, 2].flatMap((cylinder, place) =>
    cycleS.flatMap((s, k) =>
      without.includes(`${cylinder}/${k}`) ? [] : [{ cylinder, breakdownS: startS[k]! + (place * s) / 4 }],
    ),
  )
}
const HUNTING = Array.from({ length: 24 }, (_, k) => 0.15 + 0.05 * Math.sin(k))
const STARTING = [0.57, 0.57, 0.56, 0.22, 0.13, 0.11, 0.12, 0.13, 0.13, 0.13]

test('a speed that changes is never taken for turns that went by', () => {
  for (const cycles of [HUNTING, STARTING, STARTING.toReversed()])
    expect([1, 2, 3, 4].map((c) => missingTurns(atSpeeds(cycles), c))).toEqual([0, 0, 0, 0])
})

test('turns missed on a hunting engine are counted where the other cylinders show them', () => {
  expect(missingTurns(atSpeeds(HUNTING, ['3/4', '3/9', '3/15']), 3)).toBe(3)
})

test('across a change of speed its own rhythm alone is no evidence', () => {
  const alone = (without: readonly string[]) =>
    atSpeeds([0.14, 0.14, 0.14, 0.24, 0.38, 0.39, 0.39, 0.38], without).filter((e) => e.cylinder === 1)
  expect(missingTurns(alone([]), 1)).toBe(0)
  expect(missingTurns(alone(['1/6']), 1)).toBe(1)
})

test('no turn is counted beside events that are left out', () => {
  const events = engine(10, ['3/4']).map((e) => ({ ...e, leftOut: e.breakdownS > 0.45 }))
  expect(missingTurns(events, 3)).toBe(0)
})
