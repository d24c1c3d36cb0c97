import { describe, expect, test } from 'vitest'
import { lineRuns, xPt, yPt, type Frame } from '../../src/charts/line-path.ts'
import { makeRandom } from '../../src/maths/random.ts'

const axis = (low: number, high: number) => ({ low, high, ticks: [], decimals: 0 })
const frame: Frame = { x: axis(0, 2), y: axis(-1, 4), widthPt: 120, heightPt: 90 }

type Command = [letter: 'M' | 'L', x: number, y: number]
/** The drawn runs in pt, as pen moves. */
const drawn = (line: { x: readonly number[]; y: readonly number[] }, tolerancePt: number): Command[] =>
  lineRuns(line, frame, tolerancePt).flatMap((run) =>
    run.map(({ x, y }, i): Command => [i === 0 ? 'M' : 'L', xPt(frame, x), yPt(frame, y)]),
  )
const written = (line: { x: readonly number[]; y: readonly number[] }) =>
  drawn(line, 0.1)
    .map(([letter, x, y]) => `${letter}${Number(x.toFixed(6))},${Number(y.toFixed(6))}`)
    .join('')

/** Height of the drawn polyline at x, in pt. */
function heightAt(commands: readonly Command[], x: number): number {
  const i = commands.findIndex(([letter, cx], k) => letter === 'L' && cx >= x && commands[k - 1]![1] <= x)
  const [[, x1, y1], [, x2, y2]] = [commands[i - 1]!, commands[i]!]
  return x2 === x1 ? y2 : y1 + ((x - x1) / (x2 - x1)) * (y2 - y1)
}

describe('lineRuns', () => {
  test('a line inside the frame, written out', () => {
    expect(written({ x: [0, 1, 2], y: [0, 4, -1] })).toBe('M0,72L60,0L120,90')
  })

  test('points on a straight line are left out', () => {
    expect(written({ x: [0, 0.5, 1, 1.5, 2], y: [1.5, 1.5, 1.5, 1.5, 1.5] })).toBe('M0,45L120,45')
  })

  test('a line that leaves through the top is cut there and taken up where it comes back', () => {
    expect(written({ x: [0, 0.5, 1, 1.5, 2], y: [1.5, 9, 1.5, 1.5, 9] })).toBe(
      'M0,45L10,0M50,0L60,45L90,45L100,0',
    )
  })

  test.each([
    ['nothing', [], []],
    ['one point', [1], [1]],
    ['all of it above', [0, 1, 2], [5, 6, 5]],
  ])('%s draws nothing', (_, x, y) => {
    expect(written({ x, y })).toBe('')
  })

  test.each([0.1, 0.35, 1])('every point left out lies within the tolerance of %f pt', (tolerance) => {
    const random = makeRandom(7)
    const x = Array.from({ length: 400 }, (_, i) => (2 * i) / 399)
    const y = x.map((v) => 1.5 + Math.sin(5 * v) + 0.05 * random.gaussian())
    const commands = drawn({ x, y }, tolerance)
    expect(commands.length).toBeLessThan(x.length)
    for (let i = 0; i < x.length; i += 1) {
      const off = Math.abs(
        heightAt(commands, Math.min(Math.max(xPt(frame, x[i]!), 0), 120)) - yPt(frame, y[i]!),
      )
      expect(off).toBeLessThanOrEqual(tolerance + 1e-9)
    }
  })

  test('nothing is drawn outside the frame', () => {
    const random = makeRandom(11)
    const x = Array.from({ length: 300 }, (_, i) => -0.5 + (3 * i) / 299)
    const y = x.map(() => 1.5 + 4 * random.gaussian())
    for (const [, cx, cy] of drawn({ x, y }, 0.1)) {
      expect(cx >= -1e-9 && cx <= 120 + 1e-9 && cy >= -1e-9 && cy <= 90 + 1e-9).toBe(true)
    }
  })

  test('its input is left as it was', () => {
    const line = Object.freeze({ x: Object.freeze([0, 1, 2]), y: Object.freeze([0, 1, 0]) })
    expect(() => lineRuns(line, frame, 0.1)).not.toThrow()
  })
})
