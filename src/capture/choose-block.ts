import { classOf, plainCell } from './cell-text.ts'
import type { DataBlock } from './data-block.ts'
import { splitRow } from './split-row.ts'

/** The block to read, or the two readings that both fit. */
export type Choice =
  { ok: true; block: DataBlock } | { ok: false; first: string; second: string; block: DataBlock }

const NAMES: Readonly<Record<DataBlock['separator'], string>> = {
  ',': 'comma',
  ';': 'semicolon',
  '\t': 'tab',
  ' ': 'space',
  none: 'none',
}
export const separatorName = (separator: DataBlock['separator']): string => NAMES[separator]

/** A line as each reading takes it, cells parted by upright strokes; it needs no words. */
const asCells = (line: string): string => cellsOf(line).join(' | ')
const asDecimals = (line: string, fractions: ReadonlySet<number>): string =>
  cellsOf(line).reduce((text, cell, i) => text + (i === 0 ? '' : fractions.has(i) ? '.' : ' | ') + cell, '')

/** More of what the job names, then a matching header, then fewer columns of words, then more columns, then fewer rows left out. */
const rank = (block: DataBlock): readonly number[] => [
  block.named ? 1 : 0,
  block.headerCells ? 1 : 0,
  -block.classes.filter((c) => c === 'text').length,
  block.columns,
  -block.above.length,
]

/**
 * Picks the reading of the separator. A comma is the one mark that can part cells and digits:
 * where the text fits both and neither header nor job settles it, both readings are given back.
 * @param sampleOf  the first data lines of a block, as text
 */
export function chooseBlock(
  blocks: readonly DataBlock[],
  sampleOf: (block: DataBlock) => readonly string[],
): Choice | undefined {
  const [best] = [...blocks].sort((a, b) => compare(rank(b), rank(a)))
  if (!best) return undefined
  if (best.named) return { ok: true, block: best }
  const sample = sampleOf(best)
  const comma = blocks.find((block) => block.separator === ',')
  const blank = blocks.find((block) => block.separator === ' ')
  if (comma && blank && blank.columns > 1 && (best === comma || best === blank))
    return { ok: true, block: commaOrBlank({ comma, blank, best }, sample) }
  const single = blocks.find((block) => block.separator === 'none')
  if (comma && single && (best === comma || best === single) && isSingle(sample))
    return commaOrSingle({ comma, single }, sample)
  if (best.separator === ',' && !best.headerCells) {
    const fractions = fractionColumns(best, sample)
    if (fractions.size > 0) return open(best, sample, fractions)
  }
  return { ok: true, block: best }
}

function compare(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return a[i]! - b[i]!
  return 0
}

const cellsOf = (line: string): string[] => splitRow(line, ',')
const hasLeadingZero = (cell: string): boolean => /^[-+]?0\d/.test(cell)

/** `,125 ,130` is parted by the blank, `1, 2` by the comma: where both readings are figures alone, the comma's neighbours tell. */
function commaOrBlank(
  { comma, blank, best }: { comma: DataBlock; blank: DataBlock; best: DataBlock },
  sample: readonly string[],
): DataBlock {
  const words = ({ classes }: DataBlock) => classes.filter((c) => c === 'text').length
  if (words(comma) > 0 || words(blank) > 0 || !comma.headerCells !== !blank.headerCells) return best
  return sample.some((line) => /,(?:\s|$)/.test(line.trim())) ? comma : blank
}

/** Share of lines that have to be one figure each before a file may be one column: some rows of three may be, as 100,875,103. */
const SINGLE_SHARE = 0.9

const isSingle = (sample: readonly string[]): boolean =>
  sample.filter((line) => classOf(plainCell(line)) === 'number').length >= SINGLE_SHARE * sample.length

/** `1,5` on every line: two columns, or one with a decimal comma. */
function commaOrSingle(
  { comma, single }: { comma: DataBlock; single: DataBlock },
  sample: readonly string[],
): Choice {
  if (comma.headerCells && !single.headerCells) return { ok: true, block: comma }
  if (single.headerCells && !comma.headerCells) return { ok: true, block: single }
  if (sample.some((line) => hasLeadingZero(cellsOf(line)[1] ?? ''))) return { ok: true, block: single }
  return open(comma, sample, new Set([1]))
}

const open = (block: DataBlock, [line = '']: readonly string[], fractions: ReadonlySet<number>): Choice => ({
  ok: false,
  block,
  first: `${line} = ${asCells(line)}`,
  second: `${line} = ${asDecimals(line, fractions)}`,
})

/** Longest figures of a column that have to be seen before its short ones are taken for fractions without their zeros. */
const LEAST_LONG = 12

/**
 * Columns that may be what stands behind the decimal comma of the column before, in text of whole numbers alone: digits
 * such as 05 that no recorder writes as a number of its own, many digits with an exponent and no sign, or figures that
 * never end in a zero, of which the short ones fall among the long ones once zeros are put behind them.
 */
function fractionColumns({ columns }: DataBlock, sample: readonly string[]): Set<number> {
  const rows = sample.map((line) => cellsOf(line).map(plainCell))
  const whole = rows.every((cells) => cells.every((cell) => /^[-+]?\d*(?:[eE][-+]?\d+)?$/.test(cell)))
  if (!whole) return new Set()
  const looksLike = (column: number): boolean => {
    const cells = rows.map((row) => row[column] ?? '')
    if (cells.some((cell) => !/^\d/.test(cell))) return false
    return cells.some((cell) => hasLeadingZero(cell) || /^\d{3,}[eE]/.test(cell)) || isTrimmed(cells)
  }
  return new Set(Array.from({ length: columns - 1 }, (_, i) => i + 1).filter(looksLike))
}

/** Digits behind a decimal sign as they are written without the zeros at their end: .88 among .878 and .881. */
function isTrimmed(cells: readonly string[]): boolean {
  const most = Math.max(...cells.map((cell) => cell.length))
  const long = cells.filter((cell) => cell.length === most)
  const short = cells.filter((cell) => cell.length < most)
  const sorted = long.toSorted()
  return (
    most > 1 &&
    short.length > 0 &&
    new Set(long).size >= LEAST_LONG &&
    !cells.some((cell) => cell.endsWith('0')) &&
    short.every((cell) => cell >= sorted[0]!.slice(0, cell.length) && cell <= sorted.at(-1)!)
  )
}
