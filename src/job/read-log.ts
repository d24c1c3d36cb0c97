import { near, nearest, slips } from '../problems/nearest.ts'
import { problem, type Problem } from '../problems/problem.ts'
import { columnsMeant, unitOfValues } from './column-words.ts'
import { excerpt } from './excerpt.ts'
import { isMoment } from './iso-time.ts'
import type { LogRow } from './job-folder.ts'
import { momentInJob, type JobDays } from './local-time.ts'
import { KNOWN_COLUMNS, REQUIRED_COLUMNS, STEPS } from './log-steps.ts'
import { stepMeant } from './step-words.ts'
import { logTable, type TableRow } from './log-table.ts'

/** A column this close to a known name, which is itself not there, is likely meant to be it. */
const NEAR_SLIPS = 2

/** Columns read at most: many times what a log has, and a bound to the work a broken header can cause. */
const MOST_COLUMNS = 200

/** Rows of test-log.csv that can be told what they are, and what is wrong with the file. */
export interface ReadLog {
  rows: LogRow[]
  problems: Iterable<Problem>
}

/**
 * Reads the text of test-log.csv: the header, the form of every row, and the cells that place a row (`at`, `step`,
 * `trace`). What a step needs beyond that is checked where the step is understood.
 *
 * @param file    name as the job has it
 * @param days    of the job: they settle which day a date means that could be two
 * @param traces  files of job.yaml's traces and captures; undefined where they are not known
 */
export function readLog(
  file: string,
  text: string,
  traces: readonly string[] | undefined,
  days: JobDays = { from: undefined, to: undefined, only: undefined, zone: undefined },
): ReadLog {
  const {
    rows: [head, ...body],
    problems,
  } = logTable(file, text)
  const names = head ? headerNames(head) : []
  if (names.length > MOST_COLUMNS) {
    const tooMany = problem(
      'too-many-columns',
      { file, line: head!.line },
      { found: names.length, limit: MOST_COLUMNS },
    )
    return { rows: [], problems: [...problems, tooMany] }
  }
  const missing = REQUIRED_COLUMNS.some((column) => !names.includes(column))
  const found = function* (): Generator<Problem> {
    yield* problems
    if (head && missing && names.some(isMoment)) {
      yield problem('log-header-missing', { file, line: head.line }, { found: excerpt(names.join(', ')) })
      return
    }
    yield* headerProblems(file, head?.line ?? 1, names)
    const usual = usualCells(head, body)
    if (!missing) {
      for (const row of body) yield* rowProblems(row, { file, names, traces, days, usual })
      yield* openDates(body, { file, names, days })
    }
  }
  const unit = head && unitOfValues(head.cells)
  const columns = Object.fromEntries(names.map((name, i) => [name, i + 1]))
  return {
    rows: missing ? [] : body.map((row) => logRow(row, { names, columns, days, unit })),
    problems: { [Symbol.iterator]: found },
  }
}

/** Names without the space around them, known ones in small letters; empty ones at the end, from trailing separators, are left out. */
function headerNames({ cells }: TableRow): string[] {
  const names = columnsMeant(cells)
  return names.slice(0, names.findLastIndex((name) => name !== '') + 1)
}

function* headerProblems(file: string, line: number, names: readonly string[]): Generator<Problem> {
  const present = new Set<string>()
  for (const [i, name] of names.entries()) {
    const place = { file, line, column: i + 1 }
    if (name === '')
      yield problem('wrong-cell', place, { column: String(i + 1), found: '', expected: 'phrase.column-name' })
    else if (present.has(name))
      yield problem('duplicate-entry', place, { key: excerpt(name), found: excerpt(name) })
    present.add(name)
  }
  const columns = excerpt(names.join(', '))
  for (const column of REQUIRED_COLUMNS) {
    if (!present.has(column))
      yield problem(
        'unknown-column',
        { file, line },
        { column, nearest: excerpt(near(column, names)), columns },
      )
  }
  yield* nearColumns(file, line, names)
}

/** Warns of a column that is kept as a note and is probably a misspelt one: a limit must not turn into a note unseen. */
function* nearColumns(file: string, line: number, names: readonly string[]): Generator<Problem> {
  const absent = KNOWN_COLUMNS.filter(
    (known) => !names.includes(known) && !(REQUIRED_COLUMNS as readonly string[]).includes(known),
  )
  for (const [i, name] of names.entries()) {
    if (name === '' || (KNOWN_COLUMNS as readonly string[]).includes(name)) continue
    const meant = nearest(name, absent)
    if (meant === '' || slips(name, meant) > NEAR_SLIPS) continue
    yield problem(
      'near-column',
      { file, line, column: i + 1, severity: 'warn' },
      { column: excerpt(name), nearest: meant },
    )
  }
}

/** Cells of a row with the empty ones at its end: spreadsheets end every row in separators, or none. */
function usualCells(head: TableRow | undefined, body: readonly TableRow[]): number {
  const least = body.reduce((least, { cells }) => Math.min(least, cells.length), Infinity)
  return Math.max(head?.cells.length ?? 0, least === Infinity ? 0 : least)
}

interface RowContext {
  /** Cells of a row, empty ones at the end counted. */
  usual: number
  file: string
  names: readonly string[]
  traces: readonly string[] | undefined
  days: JobDays
}

function* rowProblems(row: TableRow, { file, names, traces, days, usual }: RowContext): Generator<Problem> {
  const { line, cells } = row
  const tooFew = cells.length < names.length
  if (tooFew || cells.slice(names.length).some((cell) => cell.trim() !== '')) {
    yield problem(
      'ragged-row',
      { file, line },
      { found: cells.length, expected: names.length, count: 1, text: excerpt(cells.join(', ')) },
    )
    return
  }
  // A separator within a cell that is not quoted may have moved the others, where the last of them is empty.
  if (cells.length > usual)
    yield problem(
      'ragged-row',
      { file, line, severity: 'warn' },
      { found: cells.length, expected: usual, count: 1, text: excerpt(cells.join(', ')) },
    )
  const cell = (name: string) => ({
    text: cells[names.indexOf(name)]?.trim() ?? '',
    place: { file, line, column: names.indexOf(name) + 1 },
  })
  const [at, step, trace] = [cell('at'), cell('step'), cell('trace')]
  if (at.text === '') yield problem('missing-cell', at.place, { column: 'at', step: excerpt(step.text) })
  else if (momentInJob(at.text, days) === undefined)
    yield problem('wrong-cell', at.place, { column: 'at', found: excerpt(at.text), expected: 'phrase.time' })
  if (step.text === '') yield problem('missing-cell', step.place, { column: 'step', step: '' })
  else if (stepMeant(step.text) === undefined) {
    yield problem('unknown-step', step.place, { found: excerpt(step.text), nearest: near(step.text, STEPS) })
  }
  if (trace.text !== '' && traces && !traces.includes(trace.text)) {
    yield problem('unknown-trace', trace.place, {
      found: excerpt(trace.text),
      nearest: near(trace.text, traces),
    })
  }
}

/** Dates that could be two days, told once for the whole log. */
function* openDates(
  rows: readonly TableRow[],
  { file, names, days }: { file: string; names: readonly string[]; days: JobDays },
): Generator<Problem> {
  const column = names.indexOf('at')
  const open = rows.flatMap(({ line, cells }) => {
    const text = cells[column]?.trim() ?? ''
    const meant = momentInJob(text, days)
    return meant !== undefined && typeof meant !== 'string' ? [{ line, text, meant }] : []
  })
  const [first] = open
  if (!first) return
  yield problem(
    'date-open',
    { file, line: first.line, column: column + 1 },
    { found: excerpt(first.text), meant: first.meant.join(', '), count: open.length },
  )
}

/** Cells by column name, as written but for the time, which is ISO 8601 where it is certain; empty ones are absent. */
function logRow(
  { line, cells }: TableRow,
  {
    names,
    columns,
    days,
    unit,
  }: {
    names: readonly string[]
    columns: Readonly<Record<string, number>>
    days: JobDays
    /** Of every figure that has none of its own. */
    unit: string | undefined
  },
): LogRow {
  const named = names.map((name, i) => {
    const cell = cells[i] ?? ''
    const at = name === 'at' ? momentInJob(cell, days) : undefined
    return [name, typeof at === 'string' ? at : cell] as const
  })
  const cellsByName = Object.fromEntries(named.filter(([, text]) => text.trim() !== ''))
  const lacks = unit !== undefined && cellsByName['value'] !== undefined && cellsByName['unit'] === undefined
  return { line, columns, cells: lacks ? { ...cellsByName, unit } : cellsByName }
}
