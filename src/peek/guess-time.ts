import type { Dialect } from '../capture/capture.ts'
import { clockSeconds, numberOf, plainCell } from '../capture/cell-text.ts'
import { nameAndUnit, unitOf } from '../capture/header-units.ts'
import { TIME_UNITS, type TimeUnit } from '../job/schema.ts'

/** The column that tells the time, one that only counts samples, or none. */
export type TimeGuess =
  | { kind: 'column'; index: number; unit: TimeUnit | undefined }
  | { kind: 'counter'; index: number }
  | { kind: 'none' }

const TIME_NAME = /^(?:t|time|zeit|temps|tiempo|tempo)\b|time$/i
/** Rows that have to show steps before a column is taken for time. */
const LEAST_ROWS = 3
/** A step this many times the usual one is still a clock with a gap, or stamps coarsely rounded. */
const MOST_STEP = 20

/** The unit written with a column: in a units row first, else in the header. */
export function writtenUnit(
  { unitsRow, header }: Pick<Dialect, 'unitsRow' | 'header'>,
  index: number,
): string | undefined {
  const inRow = unitsRow?.[index]
  return (
    (inRow === undefined ? undefined : unitOf(inRow)) ??
    (header?.[index] === undefined ? undefined : nameAndUnit(header[index]).unit)
  )
}

/** @param rows  cells of the first rows, shape (rows x columns) */
export function guessTime(dialect: Dialect, rows: readonly (readonly string[])[]): TimeGuess {
  const rising = Array.from({ length: dialect.columns }, (_, index) => index).filter(
    (index) => !dialect.hex?.includes(index) && rises(figuresOf(dialect, rows, index)),
  )
  const unitAt = (index: number) => timeUnit(writtenUnit(dialect, index))
  const named = (index: number) => TIME_NAME.test(nameAndUnit(dialect.header?.[index] ?? '').name)
  const best = rising.find((i) => unitAt(i) !== undefined) ?? rising.find(named) ?? rising[0]
  if (best === undefined) return { kind: 'none' }
  const isClock = rows.some((cells) => clockSeconds(plainCell(cells[best]!)) !== undefined)
  const unit = isClock ? 's' : unitAt(best)
  if (unit === undefined && !named(best) && counts(figuresOf(dialect, rows, best)))
    return { kind: 'counter', index: best }
  return { kind: 'column', index: best, unit }
}

const timeUnit = (unit: string | undefined): TimeUnit | undefined =>
  TIME_UNITS.find((known) => known === unit)

const figuresOf = (
  dialect: Dialect,
  rows: readonly (readonly string[])[],
  index: number,
): (number | undefined)[] =>
  rows.map((cells) => {
    const plain = plainCell(cells[index] ?? '')
    return numberOf(plain, dialect) ?? clockSeconds(plain)
  })

/** Never back, nowhere missing, and on in steps of a like size. */
function rises(values: readonly (number | undefined)[]): boolean {
  if (values.length < LEAST_ROWS || values.some((v) => v === undefined)) return false
  const steps = values.slice(1).map((v, i) => v! - values[i]!)
  const mean = (values.at(-1)! - values[0]!) / steps.length
  return mean > 0 && steps.every((step) => step >= 0 && step <= MOST_STEP * mean)
}

/** Whole numbers, one by one. */
const counts = (values: readonly (number | undefined)[]): boolean =>
  values.every((v, i) => Number.isInteger(v) && (i === 0 || v! - values[i - 1]! === 1))

/** Rates of recorders of ignition, and lengths of recordings anybody keeps: what a unit that is not written must give. */
const RATE_HZ: readonly [number, number] = [20e3, 20e6]
const LENGTH_S: readonly [number, number] = [0.2, 900]

/**
 * The unit of a time column that states none: the one that gives a usual rate and a usual length, seconds on a tie.
 * @param step  in the column's figures; rows: of the whole file, as far as known
 */
export function likelyUnit(step: number, rows: number): TimeUnit {
  const within = (value: number, [low, high]: readonly [number, number]) =>
    value >= low && value <= high ? 1 : 0
  const score = (unitS: number) => within(1 / (step * unitS), RATE_HZ) + within(step * unitS * rows, LENGTH_S)
  const scored = (
    [
      ['s', 1],
      ['ms', 1e-3],
      ['us', 1e-6],
      ['ns', 1e-9],
    ] as const
  ).map(([unit, unitS]) => ({ unit, score: score(unitS) }))
  return scored.reduce((best, each) => (each.score > best.score ? each : best)).unit
}
