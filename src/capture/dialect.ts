import { problem, type Problem } from '../problems/problem.ts'
import type { Dialect, RowsAbove } from './capture.ts'
import { plainCell } from './cell-text.ts'
import { chooseBlock, separatorName } from './choose-block.ts'
import { findDataBlock, usableLines, type DataBlock, type Hints } from './data-block.ts'
import { findNumberStyle, type FigureCell } from './decimal-sign.ts'
import { splitRow, type Separator } from './split-row.ts'
import { headLines, lineEndOf, type HeadLine, type TextHead } from './text-head.ts'

const SEPARATORS: readonly Separator[] = ['\t', ';', ',', ' ', 'none']
/** Data rows looked at for decimal signs; recorders show them in the first few. */
const STYLE_ROWS = 1000
/** Data rows looked at for signs of a second reading of the separator. */
const SAMPLE_ROWS = 200

/** How to read a file, what is wrong with it, or the wish for a longer head when it shows no data yet. */
export type Recognition =
  { ok: true; dialect: Dialect } | { ok: false; problems: readonly Problem[]; needsMore: boolean }

/**
 * Recognises the dialect of a capture from the start of its text. Decides nothing it cannot show evidence for:
 * two readings that both fit are a problem `ambiguous-dialect` that names both.
 *
 * @param head   first bytes of the text
 * @param about  file name for problems; names and over-range words the job uses, which settle open questions
 */
export function recognise(head: TextHead, about: { file: string } & Hints): Recognition {
  const lineEnd = lineEndOf(head.bytes)
  const lines = headLines(head, lineEnd)
  const usable = usableLines(lines)
  const blocks = SEPARATORS.map((separator) => findDataBlock(usable, separator, about)).filter(
    (block) => block !== undefined,
  )
  const sample = (block: DataBlock, rows: number) =>
    usable.usable
      .filter((index) => index >= block.start)
      .slice(0, rows)
      .map((index) => lines[index]!.text)
  const choice = chooseBlock(blocks, (block) => sample(block, SAMPLE_ROWS))
  if (!choice) {
    return {
      ok: false,
      needsMore: !head.whole,
      problems: [problem('no-data-rows', { file: about.file }, { path: about.file })],
    }
  }
  const { block } = choice
  const place = { file: about.file, line: lines[block.start]?.number ?? lines.length }
  if (block.start >= lines.length) {
    return {
      ok: false,
      needsMore: !head.whole,
      problems: [problem('no-data-rows', place, { path: about.file })],
    }
  }
  const style = findNumberStyle(figures(sample(block, STYLE_ROWS), block), block.separator)
  const unclear = !choice.ok ? choice : !style.ok ? style : undefined
  if (unclear) {
    const { first, second } = unclear
    return {
      ok: false,
      needsMore: !head.whole,
      problems: [problem('ambiguous-dialect', place, { first, second })],
    }
  }
  if (!style.ok) throw new Error('unreachable: an open style is a problem')
  const start = lines[block.start]!
  return {
    ok: true,
    dialect: {
      encoding: head.encoding.encoding,
      lineEnd: lineEnd === 10 ? '\n' : '\r',
      separator: block.separator === 'none' ? ';' : block.separator,
      decimal: style.style.decimal,
      thousands: style.style.thousands,
      decimalSeen: style.seen,
      preambleLines: (lines[block.header ?? block.start]?.number ?? 1) - 1,
      header: block.headerCells,
      unitsRow: block.unitCells,
      headerLine: block.header === undefined ? undefined : lines[block.header]!.number,
      mismatchedHeader: block.mismatch && {
        line: lines[block.mismatch.index]!.number,
        cells: block.mismatch.cells,
      },
      rowsAbove: rowsAbove(block, lines),
      dataOffset: start.offset,
      dataLine: start.number,
      columns: block.columns,
      ...(block.hex.length > 0 ? { hex: block.hex } : {}),
      evidence: [`encoding ${head.encoding.evidence}`, ...evidenceOf(block, lines), style.evidence],
    },
  }
}

/** The worst kind of rows above the data: they are told of by their first line and their count. */
function rowsAbove({ above, separator }: DataBlock, lines: readonly HeadLine[]): RowsAbove | undefined {
  const kind = (['joined', 'ragged', 'alike'] as const).find((worst) =>
    above.some((row) => row.kind === worst),
  )
  const alike = above.filter((row) => row.kind === kind)
  const first = alike[0] && lines[alike[0].index]
  if (!first || !kind) return undefined
  const { number, text } = first
  return { line: number, count: alike.length, text, kind, cells: splitRow(text, separator).length }
}

/** The cells of the columns that hold figures. */
function* figures(rows: readonly string[], block: DataBlock): Generator<FigureCell> {
  for (const row of rows) {
    const cells = splitRow(row, block.separator)
    for (let column = 0; column < block.columns; column++) {
      const cell = cells[column]
      if (block.classes[column] === 'number' && !block.hex.includes(column) && cell !== undefined)
        yield { cell: plainCell(cell), column }
    }
  }
}

/** Short facts in no language: what was found, and where. */
function evidenceOf(block: DataBlock, lines: readonly HeadLine[]): string[] {
  const line = (index: number | undefined) => (index === undefined ? '-' : lines[index]!.number)
  return [
    `separator ${separatorName(block.separator)}${block.trailing ? ' (trailing)' : ''}`,
    `columns ${block.columns}`,
    `data line ${line(block.start)}`,
    `header line ${line(block.header)}${block.named ? ' (job)' : ''}`,
    `units line ${line(block.units)}`,
    ...(block.hex.length > 0 ? [`hex columns ${block.hex.map((column) => column + 1).join(', ')}`] : []),
  ]
}
