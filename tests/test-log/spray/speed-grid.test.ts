import { expect, test } from 'vitest'
import { speedSeries, stepFor, toGrid } from '../../../src/test-log/spray/speed-grid.ts'
import { speedRecording } from '../../support/test-log.ts'

const series = (timesS: number[], rpm: number[]) => ({
  file: 't',
  timesS: Float64Array.from(timesS),
  rpm: Float64Array.from(rpm),
})

test('readings of a step are averaged', () => {
  const grid = toGrid(series([0, 0.1, 0.2, 0.3, 0.4], [700, 710, 720, 740, 800]), 0.2)
  expect([...grid.rpm]).toEqual([705, 730, 800])
  expect([...grid.known]).toEqual([1, 1, 1])
})

test('a gap of two steps is bridged, a longer one stays unknown', () => {
  const grid = toGrid(series([0, 0.2, 0.8, 1, 2], [700, 700, 730, 730, 730]), 0.2)
  expect([...grid.known]).toEqual([1, 1, 1, 1, 1, 1, 0, 0, 0, 0, 1])
  expect(grid.rpm[2]).toBeCloseTo(710, 9)
})

test('the step is the spacing where that is wider; none from one reading', () => {
  expect(stepFor(series([0, 0.5, 1, 1.5], [1, 1, 1, 1]))).toBe(0.5)
  expect(stepFor(series([0, 0.01, 0.02], [1, 1, 1]))).toBe(0.2)
  expect(stepFor(series([0], [1]))).toBeUndefined()
})

test('readings that are no number are left out, never taken as 0', () => {
  expect([...speedSeries(speedRecording('t', [750, NaN, 760], 0.1))!.rpm]).toEqual([750, 760])
})
