import { text, type LineLook, type PathRow, type SymbolRow, type TextRow } from './drawing.ts'
import { widthOf } from './faces.ts'
import { ACCENT, PAPER, TEXT_PT } from './theme.ts'

/** One entry of a key: a sample of line or mark, and what it stands for. */
export interface KeyEntry {
  words: string
  look?: LineLook
  shape?: string
}

const SAMPLE_PT = 18
const AFTER_SAMPLE_PT = 4
const BETWEEN_PT = 16
const ROW_PT = 12

export interface KeyRow {
  heightPt: number
  paths: PathRow[]
  symbols: SymbolRow[]
  texts: TextRow[]
}

/** A key set as lines of text from `left`, broken before an entry that would pass `right`. */
export function keyRow(
  entries: readonly KeyEntry[],
  { left, right }: { left: number; right: number },
): KeyRow {
  const paths: PathRow[] = []
  const symbols: SymbolRow[] = []
  const texts: TextRow[] = []
  let [x, y] = [left, ROW_PT / 2]
  for (const entry of entries) {
    const width = SAMPLE_PT + AFTER_SAMPLE_PT + widthOf(entry.words, TEXT_PT)
    if (x > left && x + width > right) [x, y] = [left, y + ROW_PT]
    if (entry.look) paths.push({ role: 'key', x, y, path: `M0,0L${SAMPLE_PT},0`, ...entry.look })
    if (entry.shape)
      symbols.push({
        role: 'key',
        x: x + SAMPLE_PT / 2,
        y,
        shape: entry.shape,
        size: 18,
        fill: PAPER,
        stroke: ACCENT,
      })
    texts.push(text('key', entry.words, { x: x + SAMPLE_PT + AFTER_SAMPLE_PT, y }))
    x += width + BETWEEN_PT
  }
  return { heightPt: entries.length > 0 ? y + ROW_PT / 2 + 4 : 0, paths, symbols, texts }
}
