import { bareHexOf } from './bare-hex.ts'
import { problem, type Problem } from '../problems/problem.ts'
import type { Dialect } from './capture.ts'
import {
  classOf,
  clockSeconds,
  groupMarkOf,
  lastDigitExponent,
  numberOf,
  plainCell,
  type NumberStyle,
} from './cell-text.ts'
import type { FigureCell } from './decimal-sign.ts'
import type { Batch } from './decode-rows.ts'
import { isFrameTitle } from './frame-columns.ts'
import type { FaultPlace, ProblemLog, RowFault } from './problem-log.ts'
import { isComment, splitRow, withoutCommentMark, type Separator } from './split-row.ts'
import { decodeText } from './text-head.ts'

/** A figure this large is no measured value: recorders write such marks for "no reading" (9.9E+37). */
const HUGE = 1e30
const DAY_S = 86_400
/** Text of a cell shown in a problem. */
const SHOWN_CHARACTERS = 40

/** A column that is decoded. */
export interface WantedColumn {
  /** 0-based column of the file. */
  index: number
  /** Header name, or the column's number. */
  name: string
  isTime: boolean
  /** Length of the time unit, s; for clock times, which are seconds whatever the unit. */
  unitS: number
}

/** How rows that are not plain are read. */
export interface OddRowPlan {
  dialect: Dialect
  /** True for one column, where nothing parts cells. */
  single: boolean
  /** Wanted columns in file order. */
  wanted: readonly WantedColumn[]
  /** Words for clipped samples. */
  words: readonly string[]
  /** Slow traces may have rows in which nothing was recorded; captures may not. */
  mayBeEmpty: boolean
}

/** Lines of words under the data that are taken for a footer; more of them are damage. */
const FOOTER_LINES = 10

/** Rows tolerated at the end of a file only: nothing in them, or of another length. Those of one kind are counted together. */
interface Pending {
  fault: 'ragged-row' | 'rows-without-figures'
  line: number
  cells: number
  text: string
  rowsBefore: number
  count: number
}

/** A figure with three digits behind its decimal sign. */
const THREE_BEHIND = { '.': /^[-+]?\d*\.\d{3}$/, ',': /^[-+]?\d*,\d{3}$/ } as const

/** Reads the rows the byte decoder passes over: quotes, thousands marks, words, clock times, remarks, damage. */
export class OddRows {
  readonly separator: Separator
  readonly #plan: OddRowPlan
  readonly #log: ProblemLog
  #pending: Pending[] = []
  /** Line of the last header met among the data. */
  #headerAgain = 0
  /** Places where one block of a file may end and the next begin: data rows before it, and what stands there. */
  readonly walls: { row: number; by: 'header' | 'title' | 'blank' }[] = []
  /** The first header met among the data. */
  secondHeader: { line: number; found: string } | undefined
  #lastClockS = -Infinity
  #dayS = 0
  /** Lines passed over because they hold nothing or a remark. */
  skipped = { blank: 0, remarks: 0 }

  constructor(plan: OddRowPlan, log: ProblemLog) {
    this.#plan = plan
    this.#log = log
    this.separator = plan.single ? 'none' : plan.dialect.separator
  }

  /**
   * Reads one row into the batch's next place, or passes over it.
   * @param bytes      the row without its line end
   * @param rowsBefore data rows of the whole file before this one
   * @returns true when the row is a data row (a damaged one too: it keeps its place)
   */
  read(bytes: Uint8Array, batch: Batch, rowsBefore: number): boolean {
    const { line } = batch
    const text = decodeText(bytes, this.#plan.dialect.encoding)
    const bare = text.replace(/[\s\0\u001a]+/g, '')
    if (bare === '') {
      if (text.includes('\0'))
        this.#fault('nul-bytes', { line, text: '' }, (count) => ['nul-bytes', { count }])
      this.skipped.blank++
      this.#wall(rowsBefore, 'blank')
      return false
    }
    if (this.#isJoined(text, line)) return false
    if (isComment(text) && !this.#isRow(withoutCommentMark(text))) {
      this.skipped.remarks++
      if (isFrameTitle(splitRow(withoutCommentMark(text), this.separator))) this.#wall(rowsBefore, 'title')
      return false
    }
    const cells = splitRow(text, this.separator)
    if (this.#isHeaderAgain(cells, line)) {
      this.#wall(rowsBefore, 'header')
      // What stands between the last row and the header of the next block is that block's preamble.
      this.#pending = this.#pending.filter((held) => held.rowsBefore < rowsBefore)
      return false
    }
    if (isFrameTitle(cells)) {
      this.#wall(rowsBefore, 'title')
      return false
    }
    const { columns } = this.#plan.dialect
    const isEmpty = cells.every((cell) => cell === '')
    if (isEmpty && this.#plan.mayBeEmpty) return this.#noFigures(line)
    const fits = cells.length >= columns && cells.slice(columns).every((cell) => cell === '')
    if (!isEmpty && fits && !this.#isFooter(cells)) return this.#cells(cells, batch)
    if (this.#isSeveral(cells)) {
      this.#log.add(this.#ragged({ line, cells: cells.length, text: shown(text.trim()), count: 1 }, 'refuse'))
      return false
    }
    this.#hold({
      fault: isEmpty ? 'rows-without-figures' : 'ragged-row',
      line,
      cells: cells.length,
      text: shown(text.trim()),
      rowsBefore,
      count: 1,
    })
    return false
  }

  /** Line ends of another kind within the row: several rows in one, of which none is guessed at. */
  #isJoined(text: string, line: number): boolean {
    const { lineEnd } = this.#plan.dialect
    const found = joinedLines(text)
    if (found.length < 2) return false
    this.#log.addRow('line-ends-change', { line, text: '' }, (count) =>
      lineEndsChange({ file: this.#log.file, line, text, lineEnd, more: count - 1 }),
    )
    return true
  }

  /** Notes a wall between blocks; a header says more than a title, and that more than a blank line. */
  #wall(row: number, by: 'header' | 'title' | 'blank'): void {
    const last = this.walls.at(-1)
    if (last?.row !== row) this.walls.push({ row, by })
    else if (by === 'header' || last.by === 'blank') last.by = by
  }

  /** More cells than two rows have, most of them figures: rows run together by something that is no line end here, no footer. */
  #isSeveral(cells: readonly string[]): boolean {
    const { columns } = this.#plan.dialect
    const figures = cells.filter((cell) => classOf(plainCell(cell)) === 'number').length
    return columns > 1 && cells.length >= 2 * columns - 1 && figures >= columns
  }

  /** Words below words: a footer goes on, though a line of it may have a comma in the right place. */
  #isFooter(cells: readonly string[]): boolean {
    const { dialect, wanted, words } = this.#plan
    return (
      this.#pending.some(({ fault }) => fault === 'ragged-row') &&
      wanted.every(
        ({ index }) =>
          classOf(plainCell(cells[index] ?? '')) === 'text' &&
          !words.includes(cells[index]!) &&
          dialect.columns > 1,
      )
    )
  }

  /** A remark that holds a figure for every column is a sample somebody took out: without it the clock would be wrong. */
  #isRow(text: string): boolean {
    const { dialect, wanted } = this.#plan
    const cells = splitRow(text, this.separator)
    return (
      cells.length === dialect.columns &&
      wanted.every(({ index }) => numberOf(plainCell(cells[index] ?? ''), dialect) !== undefined)
    )
  }

  /** The header once more, with its units row: where a second recording was put behind the first. */
  #isHeaderAgain(cells: readonly string[], line: number): boolean {
    const {
      dialect: { header, unitsRow },
      wanted,
    } = this.#plan
    const isLike = (row: readonly string[] | undefined) =>
      row !== undefined && wanted.every(({ index }) => cells[index] === row[index] && cells[index] !== '')
    if (isLike(header)) {
      this.#headerAgain = line
      this.secondHeader ??= { line, found: shown(cells.join(', ')) }
      return true
    }
    return this.#headerAgain === line - 1 && line > 1 && isLike(unitsRow)
  }

  /** Keeps a row back until it shows whether data follow it. */
  #hold(row: Pending): void {
    this.settle(row.rowsBefore)
    const alike = this.#pending.find(({ fault }) => fault === row.fault)
    if (alike) alike.count++
    else this.#pending.push(row)
  }

  /** Whether a row shows a sign in its figures that the head did not, so that its meaning is still open. */
  showsUndecidedSign(bytes: Uint8Array): boolean {
    if (this.#plan.dialect.decimalSeen || !(this.#mayShow('.', bytes) || this.#mayShow(',', bytes)))
      return false
    return this.figureCells(bytes).some(({ cell }) => classOf(cell) === 'number' && /[.,]/.test(cell))
  }

  /**
   * The style a row shows whose figures are the first large enough for a thousands mark. Only where it can be nothing
   * else: beside a decimal sign, or quoted because it is also what parts the columns. A lone mark in another file may be
   * a damaged decimal sign; and where the figure above a quoted one has three digits behind its sign, the sign may have changed.
   *
   * @param above  the row before
   */
  showsThousands(
    bytes: Uint8Array,
    above: Uint8Array,
  ): { style: NumberStyle; evidence: string } | 'unsure' | undefined {
    const { decimal, thousands, decimalSeen } = this.#plan.dialect
    if (!decimalSeen || thousands !== '' || !this.#mayShow(decimal === '.' ? ',' : '.', bytes))
      return undefined
    for (const { cell, column } of this.figureCells(bytes)) {
      const mark = groupMarkOf(cell)
      if ((mark !== '.' && mark !== ',') || mark === decimal) continue
      const besideDecimal = cell.includes(decimal)
      if (!besideDecimal && mark !== this.separator) continue
      if (!besideDecimal) {
        const before = this.figureCells(above).find((each) => each.column === column)?.cell ?? ''
        if (THREE_BEHIND[decimal].test(before)) return 'unsure'
      }
      return { style: { decimal, thousands: mark }, evidence: `thousands ${JSON.stringify(mark)} (${cell})` }
    }
    return undefined
  }

  /** Whether the row holds a sign at all, beside those that part its columns: most odd rows do not. */
  #mayShow(mark: '.' | ',', bytes: Uint8Array): boolean {
    const parting = mark === this.separator ? this.#plan.dialect.columns - 1 : 0
    let seen = 0
    for (const byte of bytes) if (byte === mark.charCodeAt(0)) seen++
    return seen > parting
  }

  /** The cells of the wanted columns in a stretch of rows, remarks and over-range words left out. */
  figureCells(bytes: Uint8Array): FigureCell[] {
    const { dialect, wanted, words } = this.#plan
    const rows = decodeText(bytes, dialect.encoding)
      .split(dialect.lineEnd)
      .filter((row) => !isComment(row))
    return rows.flatMap((row) => {
      const cells = splitRow(row, this.separator)
      return wanted
        .filter(({ index }) => !dialect.hex?.includes(index))
        .map(({ index }) => ({ cell: cells[index] ?? '', column: index }))
        .filter(({ cell }) => !words.includes(cell))
        .map(({ cell, column }) => ({ cell: plainCell(cell), column }))
    })
  }

  /** Turns rows held back into problems once data follow them. */
  settle(rows: number): void {
    const [first] = this.#pending
    if (!first || rows <= first.rowsBefore) return
    this.#pending.forEach((held) => this.#refuse(held))
    this.#pending = []
  }

  /** At the end of the file: a cut row, a footer, or any number of empty rows are left out with a warning. */
  end(rows: number): void {
    this.settle(rows)
    for (const held of this.#pending) {
      const { fault, line, count } = held
      if (fault === 'ragged-row') this.#log.add(this.#ragged(held, count <= FOOTER_LINES ? 'warn' : 'refuse'))
      else
        this.#log.add(
          problem('rows-without-figures', { file: this.#log.file, line, severity: 'warn' }, { count }),
        )
    }
    this.#pending = []
  }

  #refuse(held: Pending): void {
    const { line } = held
    if (held.fault === 'ragged-row') {
      this.#log.addRow('ragged-row', { line, text: String(held.cells), rows: held.count }, (count) =>
        this.#ragged({ ...held, count }, 'refuse'),
      )
      return
    }
    for (const { name, index } of this.#plan.wanted) {
      this.#fault('empty-cell', { line, column: index + 1, text: '', rows: held.count }, (count) => [
        'empty-cell',
        { column: name, count },
      ])
    }
  }

  #ragged(
    { line, cells, count, text }: Omit<Pending, 'fault' | 'rowsBefore'>,
    severity: 'warn' | 'refuse',
  ): Problem {
    return problem(
      'ragged-row',
      { file: this.#log.file, line, severity },
      { found: cells, expected: this.#plan.dialect.columns, count, text },
    )
  }

  #noFigures(line: number): false {
    this.#log.addRow('rows-without-figures', { line, text: '' }, (count) =>
      problem('rows-without-figures', { file: this.#log.file, line, severity: 'warn' }, { count }),
    )
    return false
  }

  #cells(cells: readonly string[], batch: Batch): boolean {
    const { dialect, wanted, mayBeEmpty } = this.#plan
    const figuresEmpty = wanted.every(({ index, isTime }) => isTime || cells[index] === '')
    if (figuresEmpty && mayBeEmpty) return this.#noFigures(batch.line)
    wanted.forEach((column, slot) => {
      const at = batch.rows * wanted.length + slot
      batch.values[at] = this.#figure(cells[column.index] ?? '', column, { batch, slot })
      batch.exponents[at] = dialect.hex?.includes(column.index)
        ? 0
        : Math.max(
            -127,
            Math.min(127, lastDigitExponent(plainCell(cells[column.index] ?? ''), dialect.decimal)),
          )
    })
    batch.lines[batch.rows] = batch.line
    return true
  }

  #figure(cell: string, column: WantedColumn, at: { batch: Batch; slot: number }): number {
    const plain = plainCell(cell)
    if (!column.isTime && this.#plan.words.includes(cell)) return this.#overRange(cell, at)
    const { dialect } = this.#plan
    const value =
      (dialect.hex?.includes(column.index) ? bareHexOf(plain) : numberOf(plain, dialect)) ??
      (column.isTime ? this.#clock(plain, column) : undefined)
    if (value !== undefined && Math.abs(value) < HUGE) return value
    const { line } = at.batch
    const found = shown(cell)
    const place = { line, column: column.index + 1, text: found }
    if (plain === '')
      this.#fault('empty-cell', place, (count) => ['empty-cell', { column: column.name, count }])
    else if (cell.includes('\0')) this.#fault('nul-bytes', place, (count) => ['nul-bytes', { count }])
    else if (value !== undefined)
      this.#fault('out-of-range', place, (count) => ['out-of-range', { column: column.name, found, count }])
    else {
      const code = column.isTime ? 'not-a-time' : 'not-a-number'
      this.#fault(code, place, (count) => [code, { column: column.name, found, count }])
    }
    return NaN
  }

  /** A time of day in the column's unit, counted on over midnight. */
  #clock(cell: string, { unitS }: WantedColumn): number | undefined {
    const seconds = clockSeconds(cell)
    if (seconds === undefined) return undefined
    if (seconds + this.#dayS < this.#lastClockS - DAY_S / 2) this.#dayS += DAY_S
    this.#lastClockS = seconds + this.#dayS
    return this.#lastClockS / unitS
  }

  /**
   * A word for a clipped sample, as infinity on the side it stands for: `-Inf` low, `Inf` high where `-Inf` is a word too
   * or it starts with +; a word that names no side stands for the side the sample before it was on.
   */
  #overRange(word: string, { batch, slot }: { batch: Batch; slot: number }): number {
    if (word.startsWith('-')) return -Infinity
    if (word.startsWith('+') || this.#plan.words.includes(`-${word}`)) return Infinity
    const before = batch.rows === 0 ? 0 : batch.values[(batch.rows - 1) * this.#plan.wanted.length + slot]!
    return before < 0 ? -Infinity : Infinity
  }

  #fault<C extends RowFault>(
    code: C,
    at: FaultPlace,
    make: (count: number) => [C, Parameters<typeof problem<C>>[2]],
  ): void {
    const severity = code === 'nul-bytes' && at.column === undefined ? 'warn' : 'refuse'
    this.#log.addRow(code, at, (count) => {
      const [named, args] = make(count)
      const { line, column } = at
      return problem(
        named,
        { file: this.#log.file, line, severity, ...(column === undefined ? {} : { column }) },
        args,
      )
    })
  }
}

export const shown = (cell: string): string => {
  const printable = cell.replace(/[\p{Cc}\p{Cf}]/gu, '\ufffd')
  return printable.length > SHOWN_CHARACTERS ? `${printable.slice(0, SHOWN_CHARACTERS)}…` : printable
}

/** The lines that line ends of another kind make of one; those at its start and end belong to the line's own end. */
const joinedLines = (text: string): string[] => text.split(/[\r\n]+/).filter((part) => part.trim() !== '')

/** @param more  lines like it that follow */
export function lineEndsChange({
  file,
  line,
  text,
  lineEnd,
  more = 0,
}: {
  file: string
  line: number
  text: string
  lineEnd: Dialect['lineEnd']
  more?: number
}): Problem {
  const [found, expected] = lineEnd === '\n' ? ['CR', 'LF'] : ['LF', 'CR']
  return problem(
    'line-ends-change',
    { file, line },
    { found, expected, count: joinedLines(text).length + more },
  )
}
