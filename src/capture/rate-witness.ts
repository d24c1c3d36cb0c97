import { problem, type Problem } from '../problems/problem.ts'
import type { Dialect } from './capture.ts'
import { clockSeconds, lastDigitExponent, numberOf, plainCell } from './cell-text.ts'
import { UNIT_S } from './columns.ts'
import { nameAndUnit, unitOf } from './header-units.ts'
import { splitRow } from './split-row.ts'
import { decodeText, type TextHead } from './text-head.ts'

/** Text looked at: some thousand rows. */
const WITNESS_BYTES = 64 * 1024
/** Steps needed before a column says anything. */
const LEAST_STEPS = 2
/** A stated rate and a time column that differ by more than this contradict each other; clocks do not. */
const TOLERANCE = 0.01
/** A column so named tells the time though no unit stands with it. */
const TIME_NAME = /^(?:t|time|zeit|temps|tiempo)$/i

/** The rows at the start of a file, and how they are written. */
interface Start {
  head: TextHead
  dialect: Dialect
}

/**
 * A stated rate against the time column that the file has beside it: who states a rate by hand, or copies it from
 * another job, would else get every duration wrong by the same factor and never know.
 */
export function rateContradicted(
  { head, dialect }: Start,
  about: { file: string; rateHz: number },
): Problem | undefined {
  const { header, unitsRow, headerLine } = dialect
  for (let index = 0; index < dialect.columns; index++) {
    const { name, unit } = nameAndUnit(header?.[index] ?? '')
    const written = unitOf(unitsRow?.[index] ?? '') ?? unit
    const units =
      written !== undefined && Object.hasOwn(UNIT_S, written)
        ? [UNIT_S[written as keyof typeof UNIT_S]]
        : written === undefined && TIME_NAME.test(name)
          ? Object.values(UNIT_S)
          : []
    if (units.length === 0) continue
    const step = stepOf({ head, dialect }, index)
    if (step === undefined || units.some((unitS) => agrees(step, 1 / (about.rateHz * unitS)))) continue
    return problem(
      'rate-contradicted',
      { file: about.file, ...(headerLine === undefined ? {} : { line: headerLine }), column: index + 1 },
      {
        stated: `${about.rateHz} Hz`,
        column: header?.[index] || String(index + 1),
        found: `${Number((1 / (step.mean * units[0]!)).toPrecision(4))} Hz`,
      },
    )
  }
  return undefined
}

/** Mean and middle step of a column, and how far its last digit can put the mean off. */
interface Step {
  mean: number
  middle: number
  digit: number
}

/** Either mean or middle may be off: the one by a gap, the other by rounding. */
const agrees = ({ mean, middle, digit }: Step, stated: number): boolean =>
  [mean, middle].some((step) => Math.abs(step - stated) <= TOLERANCE * stated + digit)

function stepOf({ head, dialect }: Start, index: number): Step | undefined {
  const text = decodeText(
    head.bytes.subarray(dialect.dataOffset, dialect.dataOffset + WITNESS_BYTES),
    dialect.encoding,
  )
  const lines = text.split(dialect.lineEnd)
  const whole = head.whole ? lines : lines.slice(0, -1)
  const cells = whole.map((line) =>
    plainCell(splitRow(line, dialect.columns === 1 ? 'none' : dialect.separator)[index] ?? ''),
  )
  const stamps = cells
    .map((cell) => ({
      at: numberOf(cell, dialect) ?? clockSeconds(cell),
      digit: 10 ** lastDigitExponent(cell, dialect.decimal),
    }))
    .filter((stamp): stamp is { at: number; digit: number } => stamp.at !== undefined)
  const steps = stamps.slice(1).map(({ at }, i) => at - stamps[i]!.at)
  if (steps.length < LEAST_STEPS || steps.some((step) => step < 0)) return undefined
  const mean = (stamps.at(-1)!.at - stamps[0]!.at) / steps.length
  const middle = [...steps].sort((a, b) => a - b)[steps.length >> 1]!
  return mean > 0
    ? { mean, middle, digit: Math.max(...stamps.slice(0, 2).map(({ digit }) => digit)) / steps.length }
    : undefined
}
