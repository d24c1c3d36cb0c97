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
