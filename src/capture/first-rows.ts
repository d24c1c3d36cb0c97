import type { Dialect } from './capture.ts'
import { splitRow } from './split-row.ts'
import { headLines, type TextHead } from './text-head.ts'

/** The cells of the first rows of a file, as text; blank lines and rows of another length are left out. */
export function firstRows({ head, dialect }: { head: TextHead; dialect: Dialect }, most: number): string[][] {
  const lines = headLines(head, dialect.lineEnd.charCodeAt(0)).filter(
    (line) => line.number >= dialect.dataLine,
  )
  const rows = lines
    .slice(0, most)
    .map((line) => splitRow(line.text, dialect.columns === 1 ? 'none' : dialect.separator))
  return rows
    .filter((cells) => cells.length >= dialect.columns)
    .map((cells) => cells.slice(0, dialect.columns))
}
