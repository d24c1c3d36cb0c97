import { bareHexColumns, bareHexOf } from './bare-hex.ts'
import type { RowsAbove } from './capture.ts'
import { classOf, plainCell, type CellClass } from './cell-text.ts'
import { unitOf } from './header-units.ts'
import { isComment, splitRow, withoutCommentMark, type Separator } from './split-row.ts'
import type { HeadLine } from './text-head.ts'

/** Rows that must agree before a row is taken for the first of the data. */
const CONFIRMING_ROWS = 3
/** Lines at the end of the head from which the shape of a data row is learnt: more than a footer has. */
const SHAPE_ROWS = 24
/** Lines above the data among which the header is looked for: names, units, and remarks between. */
const LINES_ABOVE = 6

/** Rows looked at for counts in hex without a mark, and a cell that holds digits and letters as these do. */
const HEX_ROWS = 2000
const HEX_CELL = /(?:^|[\s;,"])[0-9a-f]*(?:\d[a-f]|[a-f]\d)[0-9a-f]*(?:$|[\s;,"])/i

/** Line ends within a line, which was cut at those of another kind. */
const OTHER_LINE_ENDS = /[\r\n]+/

/** What the job says of the file, which settles what the text alone leaves open. */
export interface Hints {
  /** Header names the job uses; empty where it uses numbers or nothing is known. */
  names: readonly string[]
  /** Words that stand for clipped samples, instead of figures. */
  words: readonly string[]
}

/** Where the data of a file begin under one separator, and what a row looks like. Indices are into the head's lines. */
export interface DataBlock {
  separator: Separator
  /** Cells of a row, without the empty one after a trailing separator. */
  columns: number
  trailing: boolean
  classes: readonly CellClass[]
  /** Columns of counts in hex without a mark. */
  hex: readonly number[]
  start: number
  header: number | undefined
  units: number | undefined
  headerCells: readonly string[] | undefined
  unitCells: readonly string[] | undefined
  /** Every name the job uses stands in the header. */
  named: boolean
  /** A line of names above the data that has another number of cells than the rows. */
  mismatch: { index: number; cells: number } | undefined
  /** Lines above the data that hold figures as rows do, rows of another length, and rows joined by other line ends. */
  above: readonly { index: number; kind: RowsAbove['kind'] }[]
}

/** The lines of a head, and the indices of those that are neither blank nor remarks. */
export interface HeadLines {
  lines: readonly HeadLine[]
  usable: readonly number[]
}

export function usableLines(lines: readonly HeadLine[]): HeadLines {
  return {
    lines,
    usable: lines.flatMap(({ text }, index) => (text.trim() === '' || isComment(text) ? [] : [index])),
  }
}

/** The head under one separator: lines split and classed on demand. */
class Table {
  readonly lines: readonly HeadLine[]
  readonly usable: readonly number[]
  readonly separator: Separator
  readonly words: ReadonlySet<string>
  /** Columns of counts in hex without a mark. */
  readonly hex: readonly number[]
  readonly #cells = new Map<number, { cells: readonly string[]; classes: readonly CellClass[] }>()

  constructor(head: HeadLines, separator: Separator, hints: Hints) {
    this.lines = head.lines
    this.usable = head.usable
    this.separator = separator
    this.words = new Set(hints.words)
    this.hex = this.#hexColumns()
  }

  /** From the lower half of the head, where rows are. */
  #hexColumns(): number[] {
    const from = Math.max(this.usable.length >> 1, this.usable.length - HEX_ROWS)
    const rows = this.usable.slice(from).filter((index) => this.lines[index]!.ended)
    if (!rows.some((index) => HEX_CELL.test(this.lines[index]!.text))) return []
    return bareHexColumns(rows.map((index) => splitRow(this.lines[index]!.text, this.separator)))
  }

  row(index: number): { cells: readonly string[]; classes: readonly CellClass[] } {
    const known = this.#cells.get(index)
    if (known) return known
    const cells = splitRow(this.lines[index]!.text, this.separator)
    const made = { cells, classes: cells.map((cell, column) => this.#class(cell, column)) }
    this.#cells.set(index, made)
    return made
  }

  #class(cell: string, column: number): CellClass {
    if (this.words.has(cell)) return 'number'
    if (this.hex.includes(column) && bareHexOf(cell) !== undefined && /\d/.test(cell)) return 'number'
    const plain = plainCell(cell)
    // Between commas a blank cannot group digits: it belongs to styles with a decimal comma.
    if (this.separator === ',' && / \d/.test(plain)) return 'text'
    return classOf(plain)
  }
}

interface Shape {
  count: number
  classes: readonly CellClass[]
}

/** The data under one separator, or undefined where it shows no rows of figures. */
export function findDataBlock(head: HeadLines, separator: Separator, hints: Hints): DataBlock | undefined {
  const table = new Table(head, separator, hints)
  const shape = shapeOf(table)
  if (!shape) return undefined
  const named = hints.names.length > 0 ? namedHeader(table, shape, hints.names) : undefined
  const first = named?.first ?? firstRow(table, shape)
  if (first === undefined) return undefined
  return withHeader(table, { shape, first, named: named?.header })
}

const isFigure = (c: CellClass | undefined): boolean => c === 'number' || c === 'clock'

/** The shape of a data row, from the last lines: two neighbours of the same length that hold figures. */
function shapeOf(table: Table): Shape | undefined {
  const complete = table.usable.filter((index) => table.lines[index]!.ended)
  const tail = (complete.length > 0 ? complete : table.usable).slice(-SHAPE_ROWS)
  const rows = tail.map((index) => table.row(index)).filter(({ classes }) => classes.some(isFigure))
  let at = rows.length - 1
  while (at > 0 && rows[at]!.cells.length !== rows[at - 1]!.cells.length) at--
  const pick = rows[at > 0 ? at : rows.length - 1]
  if (!pick) return undefined
  const alike = rows.filter(({ cells }) => cells.length === pick.cells.length)
  const classes = pick.cells.map((_, column) => classOfColumn(alike.map((row) => row.classes[column]!)))
  return classes.some(isFigure) ? { count: pick.cells.length, classes } : undefined
}

function classOfColumn(classes: readonly CellClass[]): CellClass {
  const votes = (wanted: CellClass) => classes.filter((c) => c === wanted).length
  if (votes('empty') === classes.length) return 'empty'
  const filled = classes.length - votes('empty')
  if (votes('clock') * 2 > filled) return 'clock'
  return votes('number') * 2 >= filled ? 'number' : 'text'
}

function conforms(table: Table, index: number, shape: Shape): boolean {
  const { classes } = table.row(index)
  return (
    classes.length === shape.count &&
    classes.some(isFigure) &&
    classes.every((c, column) => !isFigure(shape.classes[column]) || isFigure(c) || c === 'empty')
  )
}

/** A line of names: no figures, at least one word. */
const isNames = (classes: readonly CellClass[]): boolean =>
  !classes.some(isFigure) && classes.includes('text')

/** The line that holds every name the job uses, and the first data row below it. */
function namedHeader(
  table: Table,
  shape: Shape,
  names: readonly string[],
): { header: number; first: number } | undefined {
  for (let index = 0; index < table.lines.length; index++) {
    const cells = headerCellsAt(table, index, shape)
    if (!cells || !names.every((name) => cells.includes(name.trim()))) continue
    const first =
      table.usable.find((below) => below > index && !isUnits(table.row(below).cells)) ?? table.lines.length
    return { header: index, first }
  }
  return undefined
}

/** Index of the first row that looks like the data and is followed by its like. */
function firstRow(table: Table, shape: Shape): number | undefined {
  const { usable } = table
  const at = usable.findIndex((index, i) => {
    const next = usable.slice(i + 1, i + 1 + CONFIRMING_ROWS)
    return (
      conforms(table, index, shape) &&
      next.filter((n) => conforms(table, n, shape)).length >= Math.min(next.length, CONFIRMING_ROWS - 1)
    )
  })
  if (at < 0) return undefined
  return usable[at - damagedAbove(table, shape, at)]
}

/** Rows just above the first sound one that stand under a line of names: damaged data, not preamble. */
function damagedAbove(table: Table, shape: Shape, at: number): number {
  for (let up = 1; at - up >= 0; up++) {
    const { cells, classes } = table.row(table.usable[at - up]!)
    if (isNames(classes)) return cells.length === shape.count ? up - 1 : 0
    if (!isFigure(classes[0])) return 0 // `Points,5000` is a remark of the recorder
  }
  return 0
}

const isUnits = (cells: readonly string[]): boolean =>
  cells.some((cell) => unitOf(cell) !== undefined) &&
  cells.every((cell) => cell === '' || unitOf(cell) !== undefined)

/** The names on a line, if it has one for each column of the data (a trailing separator here or there allowed). */
function headerCellsAt(table: Table, index: number, shape: Shape): readonly string[] | undefined {
  const line = table.lines[index]!.text
  const text = isComment(line) ? withoutCommentMark(line) : line
  if (text.trim() === '' || OTHER_LINE_ENDS.test(text)) return undefined
  const own = fitted(splitRow(text, table.separator), shape)
  if (own || table.separator !== ' ') return own
  // Names may hold blanks: under a blank as separator the header is sometimes parted by tabs or several blanks.
  if (isRowLike(text)) return undefined
  return fitted(
    text
      .trim()
      .split(/\t+| {2,}|;|,/)
      .map((cell) => cell.trim()),
    shape,
  )
}

/** Whether a line begins with a figure or holds a time of day, as a damaged row does and a line of names does not. */
function isRowLike(text: string): boolean {
  const classes = text
    .replaceAll('"', ' ')
    .trim()
    .split(/\s+/)
    .map((word) => classOf(plainCell(word)))
  return classes[0] === 'number' || classes.includes('clock')
}

/** The cells brought to the length of a row, where they differ by empty ones at the end only: spreadsheets add such columns. */
function fitted(cells: readonly string[], { count, classes }: Shape): readonly string[] | undefined {
  const filled = classes.findLastIndex((c) => c !== 'empty') + 1
  // Where rows end in a separator, so does the header: its last cell names nothing.
  if (cells.length < count && cells.at(-1) === '' && classes.at(-1) === 'empty') return undefined
  if (cells.length < filled || cells.slice(count).some((cell) => cell !== '')) return undefined
  return Array.from({ length: count }, (_, column) => cells[column] ?? '')
}

function withHeader(
  table: Table,
  found: { shape: Shape; first: number; named: number | undefined },
): DataBlock {
  const { shape, first, named } = found
  const { header, units } =
    named === undefined
      ? headerAbove(table, first, shape)
      : { header: named, units: unitsBetween(table, named, first) }
  const headerCells = header === undefined ? undefined : headerCellsAt(table, header, shape)
  const unitCells = units === undefined ? undefined : headerCellsAt(table, units, shape)
  const trailing =
    shape.classes.at(-1) === 'empty' && shape.count > 1 && (headerCells?.[shape.count - 1] ?? '') === ''
  const columns = shape.count - (trailing ? 1 : 0)
  return {
    separator: table.separator,
    columns,
    trailing,
    classes: shape.classes.slice(0, columns),
    hex: table.hex.filter((column) => column < columns),
    start: first,
    named: named !== undefined,
    header,
    units,
    headerCells: headerCells?.slice(0, columns),
    unitCells: unitCells?.slice(0, columns),
    mismatch: header === undefined ? mismatchAt(table, linesAbove(table, first)[0]) : undefined,
    above: rowsAbove(table, { shape, first, header, units }),
  }
}

const unitsBetween = (table: Table, header: number, first: number): number | undefined =>
  table.usable.find((index) => index > header && index < first)

/** Header and units row right above the data; a remark counts as a header only where no other line is one. */
function headerAbove(
  table: Table,
  first: number,
  shape: Shape,
): { header: number | undefined; units: number | undefined } {
  const isRemark = (index: number) => isComment(table.lines[index]!.text)
  const above = linesAbove(table, first)
  const inTurn = [above.filter((index) => !isRemark(index)), above]
  for (const [nearest, next] of inTurn) {
    if (nearest === undefined || !isHeader(table, nearest, shape)) continue
    const units =
      isUnits(headerCellsAt(table, nearest, shape)!) && next !== undefined && isHeader(table, next, shape)
    return units ? { header: next, units: nearest } : { header: nearest, units: undefined }
  }
  return { header: undefined, units: undefined }
}

function isHeader(table: Table, index: number, shape: Shape): boolean {
  const cells = headerCellsAt(table, index, shape)
  if (isFiguresAlone(table.lines[index]!.text)) return false
  return cells !== undefined && isNames(cells.map((cell) => classOf(plainCell(cell))))
}

/** Lines with text above a row, nearest first. */
function linesAbove(table: Table, first: number): number[] {
  const above: number[] = []
  for (let index = first - 1; index >= 0 && above.length < LINES_ABOVE; index--) {
    if (table.lines[index]!.text.trim() !== '') above.push(index)
  }
  return above
}

function mismatchAt(table: Table, index: number | undefined): DataBlock['mismatch'] {
  if (index === undefined || isComment(table.lines[index]!.text)) return undefined
  const { cells, classes } = table.row(index)
  return cells.length > 1 && isNames(classes) ? { index, cells: cells.length } : undefined
}

/**
 * Lines above the data that may be rows anyway. Under the header, or in a file without one, a row's number of cells
 * and one figure are enough, and a line of nothing but figures is one of another length; above a header a recorder's own
 * lines stand (`Points,5000`), and a line has to begin with a figure and hold as many as a row.
 */
function rowsAbove(
  table: Table,
  data: { shape: Shape; first: number; header: number | undefined; units: number | undefined },
): DataBlock['above'] {
  const { shape, first, header, units } = data
  const figures = shape.classes.filter(isFigure).length
  const kindOf = (text: string, under: boolean): 'alike' | 'ragged' | undefined => {
    const classes = splitRow(text, table.separator).map((cell) => classOf(plainCell(cell)))
    if (!under)
      return classes.length > 1 && isFigure(classes[0]) && classes.filter(isFigure).length >= figures
        ? 'alike'
        : undefined
    if (classes.length === shape.count && classes.some(isFigure)) return 'alike'
    if (isFiguresAlone(text)) return 'ragged'
    if (Math.abs(classes.length - shape.count) <= 1 && classes.some(isFigure)) return 'alike'
    return isMostlyFigures(splitRow(text.replaceAll('"', ''), table.separator)) ? 'alike' : undefined
  }
  let begun = false
  return table.lines.slice(0, first).flatMap(({ text }, index): DataBlock['above'] => {
    if (text.trim() === '' || index === header || index === units) return []
    const parts = text.split(OTHER_LINE_ENDS)
    if (parts.length > 1 && parts.some((part) => kindOf(part, true) !== undefined))
      return [{ index, kind: 'joined' }]
    if (isComment(text)) return []
    const under = index > (header ?? -1)
    // Once rows have begun, a line without a figure left in it is one of them anyway.
    const kind = kindOf(text, under) ?? (begun ? 'alike' : undefined)
    begun = under && kind !== undefined
    return kind === undefined ? [] : [{ index, kind }]
  })
}

/** A row whose quotation marks are damaged has any number of cells; figures are still most of it. */
function isMostlyFigures(cells: readonly string[]): boolean {
  const figures = cells.filter((cell) => isFigure(classOf(plainCell(cell)))).length
  return figures > 1 && 2 * figures > cells.length
}

const DATE = /^\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}$/

/** Two or more figures or stamps, whatever parts them, and nothing else. */
function isFiguresAlone(text: string): boolean {
  const words = text
    .replaceAll('"', ' ')
    .split(/[;,\t ]+/)
    .filter((word) => word !== '')
  const classes = words.map((word) => classOf(plainCell(word)))
  return (
    words.length > 1 &&
    classes.every((c, i) => isFigure(c) || DATE.test(words[i]!)) &&
    classes.includes('number')
  )
}
