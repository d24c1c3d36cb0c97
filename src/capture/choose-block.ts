import type { DataBlock } from './data-block.ts'

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
const asCells = (line: string): string =>
  line
    .split(',')
    .map((cell) => cell.trim())
    .join(' | ')
const asDecimals = (line: string): string =>
  line
    .split(',')
    .map((cell) => cell.trim())
    .reduce((text, cell, i) => text + (i === 0 ? '' : i % 2 === 1 ? '.' : ' | ') + cell, '')

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
  if (comma && single && (best === comma || best === single)) return commaOrSingle({ comma, single }, sample)
  if (best.separator === ',' && pairedByDecimalComma(best, sample)) {
    return open(best, sample)
  }
  return { ok: true, block: best }
}

function compare(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return a[i]! - b[i]!
  return 0
}

const cellsOf = (line: string): string[] => line.split(',').map((cell) => cell.trim())
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

/** `1,5` on every line: two columns, or one with a decimal comma. */
function commaOrSingle(
  { comma, single }: { comma: DataBlock; single: DataBlock },
  sample: readonly string[],
): Choice {
  if (comma.headerCells && !single.headerCells) return { ok: true, block: comma }
  if (single.headerCells && !comma.headerCells) return { ok: true, block: single }
  if (sample.some((line) => hasLeadingZero(cellsOf(line)[1] ?? ''))) return { ok: true, block: single }
  return open(comma, sample)
}

const open = (block: DataBlock, [line = '']: readonly string[]): Choice => ({
  ok: false,
  block,
  first: `${line} = ${asCells(line)}`,
  second: `${line} = ${asDecimals(line)}`,
})

/** Whole numbers only, an even count of them, and digits such as 05 that no recorder writes as a number of its own. */
function pairedByDecimalComma(block: DataBlock, sample: readonly string[]): boolean {
  if (block.columns % 2 !== 0 || block.headerCells) return false
  const rows = sample.map(cellsOf)
  const whole = rows.every((cells) => cells.every((cell) => /^[-+]?\d*$/.test(cell)))
  return whole && rows.some((cells) => cells.some((cell, i) => i % 2 === 1 && hasLeadingZero(cell)))
}
