import { expect, test } from 'vitest'
import { prepareLinearFit } from '../../../src/maths/linear-fit.ts'
import { swingTerms } from '../../../src/test-log/spray/swing-terms.ts'

const STEP_S = 0.2
const ROWS = 300
/** A spray's rows are missing. */
const undisturbed = Array.from({ length: ROWS }, (_, row) => row).filter((row) => row < 120 || row > 165)

// Truth: the sine itself. Frequencies between the steps of the search, and one near each end of it.
test.each([0.2034, 0.3717, 0.9123, 1.4871])(
  'a swing of %d Hz on a drift is taken out of every row, the missing ones too',
  (hz) => {
    const truth = (row: number) => 100 * Math.sin(2 * Math.PI * hz * row * STEP_S + 0.7) + 0.1 * row
    const y = Float64Array.from({ length: ROWS }, (_, row) => (row >= 120 && row <= 165 ? 999 : truth(row)))
    const terms = swingTerms(y, undisturbed, { stepS: STEP_S, scale: 10 })
    const columns = [y.map(() => 1), ...terms]
    const at = (series: Float64Array) => Float64Array.from(undisturbed, (row) => series[row]!)
    const c = prepareLinearFit(columns.map(at))!(at(y)).coefficients
    const left = Array.from({ length: ROWS }, (_, row) =>
      Math.abs(truth(row) - columns.reduce((sum, column, k) => sum + c[k]! * column[row]!, 0)),
    )
    expect(Math.max(...left)).toBeLessThan(3)
  },
)

// The search took twenty seconds on such a trace, and grew with the square of its length.
test('a trace of hours is searched in seconds, and its swing found', () => {
  const rows = 50_000
  const hz = 0.37171
  const y = Float64Array.from({ length: rows }, (_, row) => 50 * Math.sin(2 * Math.PI * hz * row * STEP_S))
  const all = Array.from({ length: rows }, (_, row) => row)
  const start = process.cpuUsage()
  const [, cos, sin] = swingTerms(y, all, { stepS: STEP_S, scale: 1 })
  const { user } = process.cpuUsage(start)
  const at = (column: Float64Array): number =>
    column.reduce((sum, v, row) => sum + v * y[row]!, 0) / (rows / 2)
  expect(Math.hypot(at(cos!), at(sin!))).toBeCloseTo(50, 1)
  expect(user / 1e6).toBeLessThan(5)
})
