import type { Dialect } from '../../../src/capture/capture.ts'

/** What a plain reading of a text by its stated dialect holds: every row that has the right number of cells. */
export interface SlowRow {
  cells: readonly string[]
  /** The row has no line end and may be cut off. */
  unended: boolean
}

const COMMENT = /^\s*(?:#|%|\/\/)/

/**
 * A second reader of captures that shares no code with the fast one: splits the whole text, row by row, by the dialect
 * that was found. It judges the decoder, not the dialect.
 */
export function slowRows(bytes: Uint8Array, dialect: Dialect): SlowRow[] {
  const lines = textOf(bytes, dialect.encoding).split(dialect.lineEnd)
  const last = lines.length - 1
  return lines.slice(dialect.dataLine - 1).flatMap((line, i): SlowRow[] => {
    const bare = line.replace(/[\s\0\u001a]+/g, '')
    if (bare === '' || COMMENT.test(line)) return []
    return [{ cells: cellsOf(line, dialect), unended: i + dialect.dataLine - 1 === last }]
  })
}

function textOf(bytes: Uint8Array, encoding: Dialect['encoding']): string {
  const text = new TextDecoder(encoding === 'latin1' ? 'latin1' : encoding, { ignoreBOM: true }).decode(bytes)
  return text.startsWith('\ufeff') ? text.slice(1) : text
}

/** Cells parted outside quotation marks; a doubled mark inside quotes is one. */
function cellsOf(line: string, { separator, columns }: Dialect): string[] {
  if (columns === 1) return [unquoted(line.trim())]
  const cells: string[] = []
  let cell = ''
  let quoted = false
  for (const c of line.trim() === '' ? '' : line) {
    if (c === '"') {
      quoted = !quoted
      cell += c
    } else if (c === separator && !quoted) {
      cells.push(cell)
      cell = ''
    } else cell += c
  }
  cells.push(cell)
  const read = cells.map((text) => unquoted(text.trim()))
  return separator === ' ' ? read.filter((text) => text !== '') : read
}

const unquoted = (cell: string): string =>
  /^".*"$/s.test(cell) ? cell.slice(1, -1).replaceAll('""', '"').trim() : cell

/** The figure of a cell in a style, or undefined where it is none: marks taken out, then the language's own reading. */
export function slowFigure(
  cell: string,
  { decimal, thousands }: Pick<Dialect, 'decimal' | 'thousands'>,
): number | undefined {
  const plain = cell
    .replace(/[\u00a0\u2009\u202f]/g, ' ')
    .replaceAll('\u2019', "'")
    .replaceAll('\u2212', '-')
    .trim()
  const other = decimal === '.' ? ',' : '.'
  const [whole = '', ...rest] = plain.split(decimal)
  if (rest.length > 1) return undefined
  const marks = thousands === '' ? [other, ' ', "'"] : [thousands, other, ' ', "'"]
  const mark = marks.find((m) => whole.includes(m))
  const grouped =
    mark === undefined
      ? whole
      : /^[-+]?\d{1,3}(?:[., ']\d{3})+$/.test(whole)
        ? whole.replaceAll(mark, '')
        : undefined
  if (grouped === undefined) return undefined
  const text = rest.length === 0 ? grouped : `${grouped}.${rest[0]}`
  const value = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?$/.test(text) ? Number(text) : Number.NaN
  return Number.isFinite(value) ? value : undefined
}
