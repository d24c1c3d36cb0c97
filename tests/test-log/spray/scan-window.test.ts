import { expect, test } from 'vitest'
import { makeRandom } from '../../../src/maths/random.ts'
import { scanWindow, stronger, weighed, type Pattern } from '../../../src/test-log/spray/scan-window.ts'

const SIGMA = 5

/** Rows, onsets and patterns at random, sizes that do not divide by four among them. */
function drawn(seed: number) {
  const random = makeRandom(seed)
  const patterns = Array.from({ length: 1 + random.integer(5) }, (_, s): Pattern => ({
    lastsS: s + 1,
    ...weighed(Float64Array.from({ length: 3 + random.integer(20) }, () => random.gaussian())),
  }))
  const onsets = { spray: 40, from: 42, to: 42 + random.integer(12) }
  const longest = Math.max(...patterns.map((p) => p.pattern.length))
  const rpm = Float64Array.from(
    { length: onsets.to - onsets.from + 1 + longest },
    () => SIGMA * random.gaussian(),
  )
  return { patterns, onsets, surprises: { first: onsets.from, rpm } }
}

/** Largest score by its definition: least squares of the rows that may be used on each pattern at each onset. */
function byDefinition({ patterns, onsets, surprises }: ReturnType<typeof drawn>) {
  const scores = patterns.flatMap(({ pattern }) =>
    Array.from({ length: onsets.to - onsets.from + 1 }, (_, k) => {
      const rows = [...pattern]
        .map((w, i) => ({ w, e: surprises.rpm[k + i]! }))
        .filter(({ e }) => !Number.isNaN(e))
      const [weight, whole] = [
        rows.reduce((sum, { w }) => sum + w * w, 0),
        pattern.reduce((sum, w) => sum + w * w, 0),
      ]
      return weight >= 0.5 * whole
        ? rows.reduce((sum, { w, e }) => sum + w * e, 0) / Math.sqrt(weight) / SIGMA
        : 0
    }),
  )
  return { up: Math.max(0, ...scores), down: Math.max(0, ...scores.map((s) => -s)) }
}

test('the scan of a whole window, of one with a gap, and the definition agree', () => {
  for (let seed = 0; seed < 200; seed++) {
    const it = drawn(seed)
    if (seed % 2 === 1) it.surprises.rpm.fill(NaN, 2, 2 + (seed % 7))
    const scan = scanWindow(it.surprises, it.onsets, it.patterns, SIGMA)
    const truth = byDefinition(it)
    expect(scan.up.score).toBeCloseTo(truth.up, 10)
    expect(scan.down.score).toBeCloseTo(truth.down, 10)
  }
})

test('a response laid on flat rows is found where it begins, with its height', () => {
  const shape: Pattern = { lastsS: 2, ...weighed(Float64Array.of(0.2, 0.7, 1, 1, 0.4)) }
  const rpm = new Float64Array(20)
  shape.pattern.forEach((w, i) => {
    rpm[6 + i] = 60 * w
  })
  for (const gap of [NaN, 0]) {
    rpm[0] = gap
    const hit = stronger(scanWindow({ first: 100, rpm }, { spray: 98, from: 100, to: 110 }, [shape], SIGMA))
    expect(hit.onset).toBe(8)
    expect(hit.rpm).toBeCloseTo(60, 10)
  }
})
