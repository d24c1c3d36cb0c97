import type { TestFinding } from '../../test-log/findings.ts'
import { onEngine, type JobFinding, type Size, type Where } from '../finding.ts'
import { STATE_OF, type Seen } from '../seen.ts'
import type { Interval } from '../../units/measured.ts'
import type { Certainty, Direction, FindingKind, FindingState } from '../words.ts'

/** A test of the log with its place in the list. */
export interface LogRow {
  test: TestFinding
  index: number
  state: FindingState
}

/** Tests of one step, in the order of time; those taken too early for the state they name are left out. */
export const rowsOf = ({ tests, tooEarly }: Seen, step: TestFinding['step']): LogRow[] =>
  tests.flatMap((test, index) =>
    test.step === step && !tooEarly.has(index) ? [{ test, index, state: STATE_OF[test.stage] }] : [],
  )

interface About {
  kind: FindingKind
  where?: Where
  direction: Direction
  reading?: string | undefined
  size?: Size | undefined
  sure?: Certainty
}

/** A finding of the log: out of order unless its direction is `none`. */
export const logFinding = (
  { test, index, state }: LogRow,
  { kind, where = onEngine, direction, reading, size, sure = 'measured' }: About,
): JobFinding => ({
  kind,
  state,
  order: direction === 'none' ? 'in order' : 'out of order',
  where,
  direction,
  condition: test.condition,
  reading,
  size,
  sure,
  why: undefined,
  unsure: [],
  tests: [index],
  captures: [],
})

/** A computed figure with the limits it was held against. */
export const sizeOf = (
  interval: Interval | undefined,
  limits: { low?: number | undefined; high?: number | undefined } = {},
): Size | undefined =>
  interval && {
    value: interval.value,
    low: interval.low,
    high: interval.high,
    unit: interval.unit,
    limitLow: limits.low,
    limitHigh: limits.high,
  }

/** `leaning` where the interval reaches the limit its value lies beyond, or lies within. */
export const certaintyOf = ({ low, high, limitLow, limitHigh }: Size): Certainty =>
  [limitLow, limitHigh].some((edge) => edge !== undefined && low <= edge && high >= edge)
    ? 'leaning'
    : 'measured'
