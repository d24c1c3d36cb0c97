import type { StructElement } from 'pdfkit'
import type { Pen, Style } from '../pdf/pen.ts'
import { cleanText } from '../text/clean-text.ts'
import type { Typeface } from '../text/typeface.ts'
import { SIZES } from '../theme.ts'
import { linesOf, type Block, type Part } from './block.ts'
import { columnWidths, type ColumnNeed } from './column-widths.ts'

/**
 * One cell: its text, all of it strong or quiet, or under a strong lead, and a quieter note below (an interval under its value).
 * Items stand below the text, each on a line of its own.
 */
export interface Cell {
  text: string
  lead?: string
  items?: readonly string[]
  note?: string
  strong?: boolean
  quiet?: boolean
}

interface Column {
  title: string
  /** Above 0: takes room where that shortens the table, and this share of what nobody needs; 0: as narrow as its text allows. */
  grow: number
  align?: 'left' | 'right'
  /** Share of the table's width that the column gets if its texts are that wide, though that makes the table no shorter. */
  leastShare?: number
}

type TableSize = 'fine' | 'small'

export interface TableContent {
  columns: readonly Column[]
  rows: readonly (readonly (Cell | string)[])[]
  /** The first column names its row. */
  rowHeads?: boolean
  /** Evidence mark of each row: links lead here. */
  marks?: readonly string[]
  /** Said to those who hear the table instead of seeing it. */
  caption?: string
  /** Rows nearer to each other: a long list that is looked things up in, not read. */
  dense?: boolean
  /** Type of its cells; small unless said. */
  size?: TableSize
  /** Rows that stay together at a page's foot or head; 1 where rows are tall and each stands for itself. */
  fewestRows?: number
}

const PAD_X_PT = 3
const PAD_Y_PT = 2.5
const DENSE_PAD_Y_PT = 1.25
const GAP_PT = 8
const FEWEST_ROWS = 2
/** Indent of an item's lines after its first. */
const HANG_PT = 8
/** How the parts of a cell look. */
const looksIn = (size: TableSize) => ({
  body: { size, face: 'regular', color: 'ink' } as const,
  strong: { size, face: 'semibold', color: 'ink' } as const,
  note: { size, face: 'regular', color: 'quiet' } as const,
})

/** A word longer than this is cut rather than starving the other columns. */
const LONGEST_WORD_PT = 84
/** Against a line break from the last bit of a sum. */
const SLACK_PT = 0.1

/** Of as many as there are: a log of thousands of rows has more words than a call takes arguments. */
const widest = (widths: readonly number[]): number => widths.reduce((most, w) => Math.max(most, w), 0)

function needOf(
  { columns, rows, size = 'small' }: TableContent,
  i: number,
  { typeface, widthPt }: { typeface: Typeface; widthPt: number },
): ColumnNeed {
  const { title, grow, leastShare = 0 } = columns[i]!
  const cells = [{ text: title, strong: true }, ...rows.map((row) => asCell(row[i] ?? ''))].map((cell) =>
    partsOf(cell, size),
  )
  const texts = cells.flat()
  const width = (text: string, { face }: Style) =>
    typeface.width(cleanText(text, typeface.has), { face, sizePt: SIZES[size].sizePt })
  const words = texts.flatMap(({ text, style }) => text.split(' ').map((word) => width(word, style)))
  const parts = texts.flatMap(({ text, style }) =>
    text.split(/ |(?<=\u2026)/).map((part) => width(part, style)),
  )
  const around = 2 * PAD_X_PT + SLACK_PT + (rows.some((row) => asCell(row[i] ?? '').items) ? HANG_PT : 0)
  const idealPt = widest(texts.map(({ text, style }) => width(text, style))) + around
  return {
    leastPt: Math.max(
      Math.min(LONGEST_WORD_PT, widest(words)) + around,
      Math.min(idealPt, leastShare * widthPt),
    ),
    tightPt: Math.min(LONGEST_WORD_PT, widest(parts)) + around,
    idealPt,
    grow,
    rows: cells.map((cell) => cell.map(({ text, style }) => width(text, style) + around)),
  }
}

type LaidCell = readonly { text: string; style: Style; indentPt: number }[]
interface LaidRow {
  cells: readonly LaidCell[]
  heightPt: number
  padPt: number
  leadPt: number
  opens: boolean
  /** The row that this mark leads to. */
  mark?: string | undefined
}

const asCell = (cell: Cell | string): Cell => (typeof cell === 'string' ? { text: cell } : cell)

/** The parts of a cell below each other, each in its style. */
function partsOf(
  { lead, text, items = [], note, strong, quiet }: Cell,
  size: TableSize,
): readonly { text: string; style: Style; hangs?: boolean }[] {
  const looks = looksIn(size)
  return [
    ...(lead === undefined ? [] : [{ text: lead, style: looks.strong }]),
    ...(text === '' ? [] : [{ text, style: strong ? looks.strong : quiet ? looks.note : looks.body }]),
    ...items.map((item) => ({ text: item, style: looks.body, hangs: true })),
    ...(note === undefined ? [] : [{ text: note, style: looks.note }]),
  ]
}

/**
 * A table with a head that is repeated on every page (as an artifact there). Rows are not cut, save one taller than
 * half a page, which is parted between its lines. All header cells carry their scope.
 */
export function table(content: TableContent): Block {
  return {
    measure({ widthPt, heightPt, type = 'small' }, typeface) {
      const size = content.size ?? type
      const widths = columnWidths(
        content.columns.map((_, i) => needOf({ ...content, size }, i, { typeface, widthPt })),
        widthPt,
      )
      const how = { widths, typeface, size, padPt: content.dense ? DENSE_PAD_Y_PT : PAD_Y_PT }
      const head = layRow(
        content.columns.map(({ title }) => ({ text: title, strong: true })),
        { ...how, padPt: PAD_Y_PT },
      )
      const rows = content.rows.flatMap((row, i) =>
        cutTall({ ...layRow(row.map(asCell), how), mark: content.marks?.[i] }, heightPt / 2),
      )
      return {
        shape: {
          pieces: rows.map((row) => row.heightPt),
          headPt: head.heightPt,
          gapPt: GAP_PT,
          keepWithNext: false,
          fewestPieces: content.fewestRows ?? FEWEST_ROWS,
        },
        draw: drawer(content, { head, rows, widths }),
      }
    },
  }
}

function layRow(
  cells: readonly Cell[],
  {
    widths,
    typeface,
    padPt,
    size,
  }: { widths: readonly number[]; typeface: Typeface; padPt: number; size: TableSize },
): LaidRow {
  const laid = cells.map((cell, i): LaidCell =>
    partsOf(cell, size).flatMap(({ text, style, hangs }) =>
      linesOf(text, widths[i]! - 2 * PAD_X_PT - (hangs ? HANG_PT : 0), { style, typeface }).map(
        (line, nth) => ({ text: line, style, indentPt: hangs && nth > 0 ? HANG_PT : 0 }),
      ),
    ),
  )
  const { leadPt } = SIZES[size]
  return { cells: laid, heightPt: rowHeight(laid, { padPt, leadPt }), padPt, leadPt, opens: true }
}

const rowHeight = (cells: readonly LaidCell[], { padPt, leadPt }: { padPt: number; leadPt: number }) =>
  Math.max(1, ...cells.map((lines) => lines.length)) * leadPt + 2 * padPt

/** A row too tall to move whole, parted into rows between its lines; only its first part has a rule above. */
function cutTall(row: LaidRow, mostPt: number): readonly LaidRow[] {
  if (row.heightPt <= mostPt) return [row]
  const most = Math.max(1, Math.floor((mostPt - 2 * row.padPt) / row.leadPt))
  const parts: LaidRow[] = []
  for (let from = 0; row.cells.some((lines) => lines.length > from); from += most) {
    const cells = row.cells.map((lines) => lines.slice(from, from + most))
    parts.push({ ...row, cells, heightPt: rowHeight(cells, row), opens: from === 0 })
  }
  return parts
}

interface LaidTable {
  head: LaidRow
  rows: readonly LaidRow[]
  widths: readonly number[]
}

/** Drawing, part after part; the open elements are kept from one page to the next. */
function drawer(content: TableContent, { head, rows, widths }: LaidTable) {
  let open: { table: StructElement; body: StructElement } | undefined
  return (pen: Pen, part: Part): void => {
    pen.artifact(() => pen.fill({ ...part, heightPt: head.heightPt }, 'tint'))
    if (open) pen.artifact(() => drawCells(pen, head, { part, content, widths }), { type: 'Pagination' })
    else open = openTable(pen, { part, content, widths, head })
    let yPt = part.yPt + head.heightPt
    for (const row of rows.slice(part.from, part.to)) {
      if (row.opens) pen.artifact(() => pen.rule({ ...part, yPt }, { color: 'rule', thickPt: 0.6 }))
      if (row.mark !== undefined) pen.rowOf(row.mark, yPt)
      const element = pen.element(open.body, 'TR')
      tagCells(pen, row, { element, part: { ...part, yPt }, content, widths })
      yPt += row.heightPt
    }
    pen.artifact(() => pen.rule({ ...part, yPt }, { color: 'quiet', thickPt: 0.6 }))
    if (!part.last) return
    open.body.end()
    open.table.end()
  }
}

interface Place {
  part: Part
  content: TableContent
  widths: readonly number[]
}

function openTable(pen: Pen, place: Place & { head: LaidRow }) {
  const { caption } = place.content
  const table = pen.element(place.part.parent, 'Table', caption === undefined ? {} : { title: caption })
  const thead = pen.element(table, 'THead')
  tagCells(pen, place.head, { ...place, element: pen.element(thead, 'TR'), head: true })
  thead.end()
  return { table, body: pen.element(table, 'TBody') }
}

function tagCells(pen: Pen, row: LaidRow, how: Place & { element: StructElement; head?: boolean }): void {
  row.cells.forEach((cell, i) => {
    const isRowHead = !how.head && i === 0 && (how.content.rowHeads ?? true)
    const scope = how.head ? ('Column' as const) : isRowHead ? ('Row' as const) : undefined
    const element = pen.element(how.element, scope ? 'TH' : 'TD', scope ? { scope } : {})
    const place = cellPlace(how, i, row)
    // The cell that names its row leads to itself.
    const linked = !(i === 0 && row.mark !== undefined) && pen.hasMarks(cell.map(({ text }) => text))
    if (linked)
      for (const line of placed(pen, cell, place)) pen.words(element, [line.text], line.at, line.style)
    else pen.tagged(element, () => drawCell(pen, cell, place))
    element.end()
  })
  how.element.end()
}

const drawCells = (pen: Pen, row: LaidRow, place: Place) =>
  row.cells.forEach((cell, i) => drawCell(pen, cell, cellPlace(place, i, row)))

interface CellPlace {
  xPt: number
  yPt: number
  widthPt: number
  leadPt: number
  align: 'left' | 'right'
}

function cellPlace(
  { part, content, widths }: Place,
  i: number,
  { padPt, leadPt }: { padPt: number; leadPt: number },
): CellPlace {
  const before = widths.slice(0, i).reduce((sum, width) => sum + width, 0)
  return {
    xPt: part.xPt + before + PAD_X_PT,
    yPt: part.yPt + padPt,
    widthPt: widths[i]! - 2 * PAD_X_PT,
    leadPt,
    align: content.columns[i]!.align ?? 'left',
  }
}

/** A cell's lines with their places. An empty cell holds a space: every cell of a table must have content. */
function placed(pen: Pen, cell: LaidCell, at: CellPlace) {
  const lines = cell.length === 0 ? [{ text: ' ', style: looksIn('small').body, indentPt: 0 }] : cell
  return lines.map(({ text, style, indentPt }, i) => ({
    text: i < lines.length - 1 ? `${text} ` : text === '' ? ' ' : text,
    style,
    at: {
      xPt: at.align === 'right' ? at.xPt + at.widthPt - pen.widthOf(text, style) : at.xPt + indentPt,
      yPt: at.yPt + i * at.leadPt,
    },
  }))
}

function drawCell(pen: Pen, cell: LaidCell, place: CellPlace): void {
  for (const { text, at, style } of placed(pen, cell, place)) pen.text(text, at, style)
}
