import { plainCell, type NumberStyle } from './cell-text.ts'
import type { Separator } from './split-row.ts'

/** The style found, whether any cell showed it, and why; or the two readings that both fit. */
export type StyleFound =
  | { ok: true; style: NumberStyle; seen: boolean; evidence: string }
  | { ok: false; first: string; second: string }

type Mark = '.' | ','

/** What the cells show of one mark: it must be the decimal sign, it must group digits, or it may be either, and how often. */
interface Shown {
  decimal: string | undefined
  groups: string | undefined
  either: string | undefined
  eithers: number
}

/** Cells that may be grouped before they are taken to be: a single one may be a damaged decimal sign. */
const LEAST_GROUPED = 2

/** One group of three digits after one to three, no leading zero: a thousands mark or three decimals. */
const EITHER = /^[-+]?[1-9]\d{0,2}[.,]\d{3}$/
const GROUPS = /^[-+]?[1-9]\d{0,2}(?:([.,])\d{3}){2,}$/
const BOTH = /^[-+]?[1-9]\d{0,2}(?:([.,])\d{3})+(?!\1)[.,]\d*(?:[eE][-+]?\d+)?$/
const ONE = /^[-+]?\d*([.,])\d*(?:[eE][-+]?\d+)?$/
const SPACED = /^[-+]?\d{1,3}([ '])\d{3}/

/** A whole number of three digits: beside figures such as 1.026 it says that the point there may group thousands. */
const HUNDREDS = /^[-+]?[1-9]\d{2}$/

/** A figure's text, and the column it stands in. */
export interface FigureCell {
  cell: string
  column: number
}

/** Decides decimal sign and thousands mark from the cells of figures at the start of the data. */
export function findNumberStyle(cells: Iterable<FigureCell>, separator: Separator): StyleFound {
  const shown: Record<Mark, Shown> = {
    '.': { decimal: undefined, groups: undefined, either: undefined, eithers: 0 },
    ',': { decimal: undefined, groups: undefined, either: undefined, eithers: 0 },
  }
  let hundreds = false
  let spaced: ' ' | "'" | undefined
  const mixed = new MixedColumns()
  for (const { cell, column } of cells) {
    const plain = plainCell(cell)
    mixed.note(plain, column)
    note(plain, shown)
    hundreds ||= HUNDREDS.test(plain)
    spaced ??= SPACED.exec(plain)?.[1] as ' ' | "'" | undefined
  }
  return decide(shown, { separator, spaced, hundreds, mixed: mixed.some })
}

/**
 * Columns in which `4,875` stands beside `0.125`, all of them with three digits behind the point: a recorder writes the
 * figures of a column alike, and the sign may have changed within the file.
 */
class MixedColumns {
  readonly #grouped = new Set<number>()
  readonly #three = new Set<number>()
  readonly #other = new Set<number>()

  note(cell: string, column: number): void {
    if (/^[-+]?[1-9]\d{0,2},\d{3}$/.test(cell)) this.#grouped.add(column)
    else if (/^[-+]?\d*\.\d{3}$/.test(cell)) this.#three.add(column)
    else if (cell !== '') this.#other.add(column)
  }

  get some(): boolean {
    return [...this.#grouped].some((column) => this.#three.has(column) && !this.#other.has(column))
  }
}

function note(cell: string, shown: Record<Mark, Shown>): void {
  const both = BOTH.exec(cell)?.[1] as Mark | undefined
  if (both !== undefined) {
    shown[both].groups ??= cell
    shown[both === '.' ? ',' : '.'].decimal ??= cell
    return
  }
  const groups = GROUPS.exec(cell)?.[1] as Mark | undefined
  if (groups !== undefined) {
    shown[groups].groups ??= cell
    return
  }
  const bare = cell.replaceAll(' ', '').replaceAll("'", '')
  const mark = ONE.exec(bare)?.[1] as Mark | undefined
  if (mark === undefined) return
  if (EITHER.test(cell)) {
    shown[mark].either ??= cell
    shown[mark].eithers++
  } else shown[mark].decimal ??= cell
}

function decide(
  shown: Record<Mark, Shown>,
  how: { separator: Separator; spaced: ' ' | "'" | undefined; hundreds: boolean; mixed: boolean },
): StyleFound {
  const point = shown['.']
  const comma = shown[',']
  if (point.decimal !== undefined && comma.decimal !== undefined) return clash(point.decimal, comma.decimal)
  if (point.groups !== undefined && comma.groups !== undefined) return clash(point.groups, comma.groups)
  const rest = how.spaced ?? ''
  if (comma.decimal !== undefined || point.groups !== undefined) {
    if (point.either !== undefined && point.groups === undefined) return either(point.either, '.')
    return settled(
      { decimal: ',', thousands: point.groups !== undefined ? '.' : rest },
      comma.decimal ?? point.groups,
    )
  }
  if (point.decimal !== undefined || comma.groups !== undefined) {
    const grouped = comma.groups ?? (point.decimal !== undefined ? comma.either : undefined)
    // Where commas part the columns such a cell is quoted, which damage to one sign does not do.
    if (
      grouped !== undefined &&
      comma.groups === undefined &&
      (how.mixed || (how.separator !== ',' && comma.eithers < LEAST_GROUPED))
    )
      return either(grouped, ',')
    return settled(
      { decimal: '.', thousands: grouped !== undefined ? ',' : rest },
      point.decimal ?? comma.groups,
    )
  }
  if (comma.either !== undefined) {
    return rest !== '' ? settled({ decimal: ',', thousands: rest }, comma.either) : either(comma.either, ',')
  }
  if (point.either !== undefined) {
    // A point before three digits is a decimal sign, unless the file parts its cells as decimal-comma countries do, or
    // has hundreds without a sign beside it.
    return how.separator === ';' || how.hundreds
      ? either(point.either, '.')
      : settled({ decimal: '.', thousands: rest }, point.either)
  }
  return { ok: true, seen: false, style: { decimal: '.', thousands: rest }, evidence: 'decimal -' }
}

const settled = (style: NumberStyle, cell: string | undefined): StyleFound => ({
  ok: true,
  style,
  seen: true,
  evidence:
    `decimal ${style.decimal}${cell === undefined ? '' : ` (${cell})`}` +
    (style.thousands === '' ? '' : `, thousands ${JSON.stringify(style.thousands)}`),
})

const clash = (point: string, comma: string): StyleFound => ({ ok: false, first: point, second: comma })

const either = (cell: string, mark: Mark): StyleFound => ({
  ok: false,
  first: `${cell} = ${cell.replace(mark, '.')}`,
  second: `${cell} = ${cell.replace(mark, '')}`,
})
