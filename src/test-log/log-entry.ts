import { excerpt } from '../job/excerpt.ts'
import { isMoment } from '../job/iso-time.ts'
import { momentsMeant } from '../job/local-time.ts'
import type { LogRow } from '../job/job-folder.ts'
import { KNOWN_COLUMNS, STEPS, type Step } from '../job/log-steps.ts'
import { stepMeant } from '../job/step-words.ts'
import { LOG_FILE as FILE } from '../job/own-files.ts'
import { near } from '../problems/nearest.ts'
import { problem, type Problem } from '../problems/problem.ts'
import type { LogEntry } from './entry.ts'
import { readingSpelt, unitSpelt } from './spelling.ts'
import { cylinderOf } from './step-kind.ts'
import { STEP_KINDS } from './steps/index.ts'

const NUMBER = /^[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?$/
/**
 * A figure with a decimal comma, as spreadsheets of half the world write it. One to three digits before and just three
 * behind it may be thousands as well (1,230) and stay refused; a zero before the comma groups nothing (0,125).
 */
const COMMA_NUMBER = /^[+-]?(?![1-9]\d{0,2},\d{3}$)(\d+,\d+|,\d+)$/
/** The sign typographers and some analysers print for minus. */
const MINUS = /^\u2212/

/** A row read: with problems the entry may lack the cells they concern, or be none at all. */
export interface ReadRow {
  entry: LogEntry | undefined
  problems: Problem[]
}

/** Reads all rows of a log in the decimal sign they have together. */
export function readEntries(log: readonly LogRow[]): ReadRow[] {
  const decimal = decimalSign(log)
  return log.map((row) => readEntry(row, decimal))
}

/** Reads one row in the log's decimal sign; with problems the entry may lack the cells they concern. Undefined for a row that cannot be placed at all. */
function readEntry(row: LogRow, decimal: '.' | ',' = '.'): ReadRow {
  const problems: Problem[] = []
  const cells = new Cells(row, problems, decimal)
  const written = cells.text('step')
  const step = written === undefined ? undefined : stepMeant(written)
  if (step === undefined) {
    if (written === undefined) cells.missing('step', '')
    else
      problems.push(
        problem(
          'unknown-step',
          { file: FILE, line: row.line },
          { found: excerpt(written), nearest: near(written, STEPS) },
        ),
      )
    return { entry: undefined, problems }
  }
  const entry: LogEntry = { line: row.line, at: cells.moment(step), step, stage: cells.stage() }
  fill(entry, {
    place: cells.text('place'),
    condition: cells.text('condition'),
    reading: cells.reading(step),
    value: cells.number('value', step),
    unit: cells.unit(step),
    expectedLow: cells.number('expected_low'),
    expectedHigh: cells.number('expected_high'),
    trace: cells.text('trace'),
    fromS: cells.number('from_s'),
    toS: cells.number('to_s'),
    outcome: cells.text('outcome'),
    note: cells.note(),
  })
  cells.check(entry)
  return { entry, problems }
}

function fill(entry: LogEntry, cells: Partial<LogEntry>): void {
  for (const [key, value] of Object.entries(cells))
    if (value !== undefined) Object.assign(entry, { [key]: value })
}

/** Words of a step's readings; cylinders are named once. */
const knownReadings = (words: readonly string[]): string =>
  [...new Set(words.map((word) => (cylinderOf(word) === undefined ? word : 'cylinder 1 …')))].join(', ')

/** Columns that hold figures. */
const FIGURES = ['value', 'expected_low', 'expected_high', 'from_s', 'to_s'] as const

/**
 * The decimal sign of a log: the comma where figures have one and none has a point, since a spreadsheet writes all its
 * figures alike. Where both stand, one of them may group thousands, and only the point is taken.
 */
function decimalSign(log: readonly LogRow[]): '.' | ',' {
  const figures = log.flatMap(({ cells }) =>
    FIGURES.map((column) => (cells[column] ?? '').trim().replace(MINUS, '-')),
  )
  const commas = figures.some((text) => COMMA_NUMBER.test(text))
  return commas && !figures.some((text) => text.includes('.') && NUMBER.test(text)) ? ',' : '.'
}

/** The figure a cell holds; undefined where it holds none, or could hold two. */
function figureOf(cell: string, decimal: '.' | ','): number | undefined {
  const text = cell.replace(MINUS, '-')
  const plain = decimal === ',' && COMMA_NUMBER.test(text) ? text.replace(',', '.') : text
  const value = NUMBER.test(plain) ? Number(plain) : Number.NaN
  return Number.isFinite(value) ? value : undefined
}

/** The cells of one row and the problems found in them. */
class Cells {
  private readonly row: LogRow
  private readonly problems: Problem[]
  private readonly decimal: '.' | ','
  constructor(row: LogRow, problems: Problem[], decimal: '.' | ',') {
    this.row = row
    this.problems = problems
    this.decimal = decimal
  }

  text(column: string): string | undefined {
    const text = this.row.cells[column]?.trim()
    return text === '' ? undefined : text
  }

  missing(column: string, step: string): void {
    this.problems.push(problem('missing-cell', { file: FILE, line: this.row.line }, { column, step }))
  }

  wrong(column: string, found: string, expected: string): void {
    this.problems.push(
      problem('wrong-cell', { file: FILE, line: this.row.line }, { column, found: excerpt(found), expected }),
    )
  }

  unknown(column: string, found: string, words: readonly string[]): void {
    this.problems.push(
      problem(
        'unknown-word',
        { file: FILE, line: this.row.line },
        { key: column, found: excerpt(found), nearest: near(found, words), known: words.join(', ') },
      ),
    )
  }

  number(column: string, step?: Step): number | undefined {
    const text = this.text(column)
    if (text === undefined) return undefined
    const value = figureOf(text, this.decimal)
    if (value !== undefined) return value
    const measured = step === undefined ? undefined : this.withUnit(step)
    if (measured !== undefined) return measured.value
    const isOutcome = step !== undefined && STEP_KINDS[step].outcome?.reads(text) === true
    this.wrong(column, text, isOutcome ? 'phrase.number-or-outcome' : 'phrase.number')
    return undefined
  }

  /** The unit as the log has it, whatever its capitals. */
  unit(step: Step): string | undefined {
    const written = this.text('unit')
    const kind = STEP_KINDS[step].readings
    if (kind === undefined) return written
    if (written === undefined) return this.withUnit(step)?.unit
    return unitSpelt(written, kind.units(readingSpelt(step, this.text('reading') ?? '') ?? ''))
  }

  /** A figure written with its unit in the same cell: `150 psi`, where the unit's own cell says nothing else. */
  private withUnit(step: Step): { value: number; unit: string } | undefined {
    const [, figure, written] = /^([-+\u2212]?[\d.,]+)\s*([^\d.,\s].*)$/.exec(this.text('value') ?? '') ?? []
    if (figure === undefined || written === undefined) return undefined
    const units = STEP_KINDS[step].readings?.units(readingSpelt(step, this.text('reading') ?? '') ?? '') ?? []
    const unit = unitSpelt(written, units)
    const own = this.text('unit')
    const value = figureOf(figure, this.decimal)
    if (value === undefined || !units.includes(unit) || (own !== undefined && unitSpelt(own, units) !== unit))
      return undefined
    return { value, unit }
  }

  moment(step: string): string {
    const at = this.text('at')
    if (at === undefined) this.missing('at', step)
    else if (!isMoment(at) && momentsMeant(at).length < 2) this.wrong('at', at, 'phrase.time')
    return at ?? ''
  }

  stage(): 'before' | 'after' {
    const stage = this.text('stage')?.toLowerCase() ?? 'before'
    if (stage === 'before' || stage === 'after') return stage
    this.unknown('stage', stage, ['before', 'after'])
    return 'before'
  }

  reading(step: Step): string | undefined {
    const reading = this.text('reading')
    const kind = STEP_KINDS[step].readings
    if (reading === undefined || kind === undefined) return reading
    const word = readingSpelt(step, reading)
    if (word !== undefined) return word
    if (kind.expected !== undefined) this.wrong('reading', reading, kind.expected)
    else
      this.problems.push(
        problem(
          'unknown-reading',
          { file: FILE, line: this.row.line },
          {
            found: excerpt(reading),
            nearest: near(reading, kind.words),
            known: knownReadings(kind.words),
            step,
          },
        ),
      )
    return undefined
  }

  /** The note, with the cells of columns the contract does not know. */
  note(): string | undefined {
    const extra = Object.entries(this.row.cells).filter(
      ([column, text]) => !(KNOWN_COLUMNS as readonly string[]).includes(column) && text.trim() !== '',
    )
    const parts = [this.text('note'), ...extra.map(([column, text]) => `${column}: ${text.trim()}`)].filter(
      (p) => p !== undefined,
    )
    return parts.length ? parts.join('; ') : undefined
  }

  /** What a step needs, and what must agree between cells. */
  check(entry: LogEntry): void {
    const { step, reading, value, unit, expectedLow, expectedHigh } = entry
    const { needs, readings, neverNegative } = STEP_KINDS[step]
    if (needs.place && entry.place === undefined) this.missing('place', step)
    if (needs.reading && this.text('reading') === undefined) this.missing('reading', step)
    if (needs.value && this.text('value') === undefined) this.missing('value', step)
    if (needs.value && unit === undefined) this.missing('unit', step)
    const units = readings === undefined || reading === undefined ? [] : readings.units(reading)
    // A figure without a unit, where it need not be there, says nothing: 12 what?
    if (!needs.value && value !== undefined && unit === undefined && units.length > 0)
      this.missing('unit', step)
    if (unit !== undefined && units.length > 0 && !units.includes(unit)) this.unknown('unit', unit, units)
    if (expectedLow !== undefined && expectedHigh !== undefined && expectedLow > expectedHigh) {
      this.wrong('expected_low', String(expectedLow), 'phrase.low-high')
    }
    if (neverNegative && value !== undefined && value < 0)
      this.wrong('value', String(value), 'phrase.not-negative')
  }
}
