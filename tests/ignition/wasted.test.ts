import { expect, test } from 'vitest'
import { makeRandom } from '../../src/maths/random.ts'
import { splitWasted, type SparkShape } from '../../src/ignition/wasted.ts'

/** Alternating sparks 75 ms apart; the firing ones higher by a factor. */
function sparks(count: number, factor: number): { shapes: SparkShape[]; truth: string[] } {
  const { gaussian } = makeRandom(3)
  const truth = Array.from({ length: count }, (_, i) => (i % 2 === 0 ? 'wasted' : 'firing'))
  const shapes = truth.map((kind, i) => {
    const scale = (kind === 'firing' ? factor : 1) * (1 + 0.08 * gaussian())
    return {
      timeS: i * 0.075,
      peakKv: 2 * scale * (1 + 0.3 * gaussian() ** 2),
      lineKv: 0.8 * scale,
      lateKv: 0.6 * scale,
    }
  })
  return { shapes, truth }
}

test('turn and height together tell them apart', () => {
  const { shapes, truth } = sparks(30, 1.8)
  expect(splitWasted(shapes)).toEqual(truth)
})

test('sparks not found leave the others as they were', () => {
  const { shapes, truth } = sparks(30, 1.8)
  const kept = (_: unknown, i: number): boolean => ![4, 11, 12, 13].includes(i)
  expect(splitWasted(shapes.filter(kept))).toEqual(truth.filter(kept))
})

test('a turn lost in the record does not swap what follows', () => {
  const { shapes, truth } = sparks(30, 2.2)
  const late = shapes.slice(16).map((s) => ({ ...s, timeS: s.timeS - 0.075 }))
  const kinds = splitWasted([...shapes.slice(0, 15), ...late])
  const wanted = [...truth.slice(0, 15), ...truth.slice(16)]
  kinds.forEach((kind, i) => expect([wanted[i], undefined]).toContain(kind))
  expect(kinds.filter((k) => k === undefined).length).toBeLessThan(3)
})

test('alike, or too few, they are not told', () => {
  for (const { shapes } of [sparks(30, 1.02), sparks(4, 2)])
    expect(splitWasted(shapes).every((k) => k === undefined)).toBe(true)
})

test('sparks that were left out are told by their turn: their heights say nothing', () => {
  const { shapes, truth } = sparks(40, 3)
  const out = (i: number): boolean => i % 5 === 1 || i % 7 === 2
  const open = { peakKv: 23, lineKv: 23, lateKv: 23 }
  const mixed = shapes.map((s, i) => (out(i) ? { ...s, ...open, burns: false } : s))
  expect(splitWasted(mixed)).toEqual(truth)
  const asBurnt = shapes.map((s, i) => (out(i) ? { ...s, ...open } : s))
  expect(splitWasted(asBurnt)).not.toEqual(truth)
})
