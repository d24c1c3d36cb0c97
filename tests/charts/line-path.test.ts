import * as vega from 'vega'
import { describe, expect, test } from 'vitest'
import { linePath, lineRuns, xPt, yPt, type Frame } from '../../src/charts/line-path.ts'
import { makeRandom } from '../../src/maths/random.ts'

const axis = (low: number, high: number) => ({ low, high, ticks: [], decimals: 0 })
const frame: Frame = { x: axis(0, 2), y: axis(-1, 4), widthPt: 120, heightPt: 90 }

type Command = [string, number, number]
/** Read back by Vega's own path parser, which is what will draw it. */
const read = (path: string) => (vega as unknown as { pathParse: (path: string) => Command[] }).pathParse(path)

/** Height of the drawn polyline at x, in pt. */
function heightAt(commands: readonly Command[], x: number): number {
  const i = commands.findIndex(([letter, cx], k) => letter === 'L' && cx >= x && commands[k - 1]![1] <= x)
  const [[, x1, y1], [, x2, y2]] = [commands[i - 1]!, commands[i]!]
  return x2 === x1 ? y2 : y1 + ((x - x1) / (x2 - x1)) * (y2 - y1)
}

describe('linePath', () => {
  test('a line inside the frame, written out', () => {
    expect(linePath({ x: [0, 1, 2], y: [0, 4, -1] }, frame, 0.1)).toBe('M0,72L60,0L120,90')
  })

  test('points on a straight line are left out', () => {
    expect(linePath({ x: [0, 0.5, 1, 1.5, 2], y: [1.5, 1.5, 1.5, 1.5, 1.5] }, frame, 0.1)).toBe(
      'M0,45L120,45',
    )
  })

  test('a line that leaves through the top is cut there and taken up where it comes back', () => {
    expect(linePath({ x: [0, 0.5, 1, 1.5, 2], y: [1.5, 9, 1.5, 1.5, 9] }, frame, 0.1)).toBe(
      'M0,45L10,0M50,0L60,45L90,45L100,0',
    )
  })

  test('the same line as runs of points in its own units', () => {
    const line = { x: [0, 0.5, 1, 1.5, 2], y: [1.5, 9, 1.5, 1.5, 9] }
    const drawn = lineRuns(line, frame, 0.1)
      .map((run) =>
        run.map(
          ({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${xPt(frame, x).toFixed(0)},${yPt(frame, y).toFixed(0)}`,
        ),
      )
      .flat()
      .join('')
    expect(drawn).toBe(linePath(line, frame, 0.1))
  })

  test.each([
    ['nothing', [], []],
    ['one point', [1], [1]],
    ['all of it above', [0, 1, 2], [5, 6, 5]],
  ])('%s draws nothing', (_, x, y) => {
    expect(linePath({ x, y }, frame, 0.1)).toBe('')
  })

  test.each([0.1, 0.35, 1])(
    'every point left out lies within the tolerance of %f pt, and half a tenth for the rounding of each end',
    (tolerance) => {
      const random = makeRandom(7)
      const x = Array.from({ length: 400 }, (_, i) => (2 * i) / 399)
      const y = x.map((v) => 1.5 + Math.sin(5 * v) + 0.05 * random.gaussian())
      const commands = read(linePath({ x, y }, frame, tolerance))
      expect(commands.length).toBeLessThan(x.length)
      // The steepest stretch turns an error of 0.05 pt across into more upwards.
      const steepest = Math.max(
        ...commands
          .slice(1)
          .map(([, cx, cy], i) => Math.abs((cy - commands[i]![2]) / Math.max(cx - commands[i]![1], 0.1))),
      )
      for (let i = 0; i < x.length; i += 1) {
        const off = Math.abs(
          heightAt(commands, Math.min(Math.max(xPt(frame, x[i]!), 0), 120)) - yPt(frame, y[i]!),
        )
        expect(off).toBeLessThanOrEqual(tolerance + 0.05 + 0.05 * steepest + 1e-9)
      }
    },
  )

  test('nothing is drawn outside the frame', () => {
    const random = makeRandom(11)
    const x = Array.from({ length: 300 }, (_, i) => -0.5 + (3 * i) / 299)
    const y = x.map(() => 1.5 + 4 * random.gaussian())
    for (const [, cx, cy] of read(linePath({ x, y }, frame, 0.1))) {
      expect(cx >= 0 && cx <= 120 && cy >= 0 && cy <= 90).toBe(true)
    }
  })

  test('its input is left as it was', () => {
    const line = Object.freeze({ x: Object.freeze([0, 1, 2]), y: Object.freeze([0, 1, 0]) })
    expect(() => linePath(line, frame, 0.1)).not.toThrow()
  })
})
