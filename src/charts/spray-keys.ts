import type { DrawnSpeed } from '../records/drawn-traces.ts'
import type { Finding } from '../test-log/findings.ts'
import type { Texts, WordKey } from '../texts/messages.ts'
import { say, wordOf } from '../texts/say.ts'
import type { SymbolRow, TextRow } from './drawing.ts'
import { note, text } from './drawing.ts'
import { ACCENT, INK, PAPER, STRONG, TEXT_PT } from './theme.ts'
import { wrapText } from './wrap-text.ts'

/** A spray with its key number: the same place with the same finding keeps its number. */
export interface KeyedSpray {
  number: number
  fromS: number
  toS: number
  place: string
  finding: string
  mark?: string
}

/** Number marks: pt across, and the room a lane of them takes. */
const MARK_PT = 11
export const LANE_PT = 13
const LINE_PT = 10
const ENTRY_GAP_PT = 3
const COLUMN_GAP_PT = 14

/** A finding's mark: filled where the engine answered, hollow where it did not, other shapes for the rest. */
const looks = (finding: string): { shape: string; fill: string; ink: string } => {
  if (finding === 'response') return { shape: 'circle', fill: ACCENT, ink: PAPER }
  if (finding === 'no response') return { shape: 'circle', fill: PAPER, ink: INK }
  return { shape: 'square', fill: PAPER, ink: INK }
}

/** What a test found, in a chart. */
const FINDINGS: Readonly<Record<Finding, WordKey>> = {
  response: 'chart.finding.response',
  'no response': 'chart.finding.no-response',
  unclear: 'chart.finding.unclear',
  'in limits': 'chart.finding.in-limits',
  'out of limits': 'chart.finding.out-of-limits',
  recorded: 'chart.finding.recorded',
}

export const findingWord = (finding: string, texts: Texts): string => wordOf(texts, FINDINGS, finding)

/** Sprays in the order of time, numbered by place and finding. */
export function keySprays(sprays: DrawnSpeed['sprays']): KeyedSpray[] {
  const ordered = sprays.toSorted((a, b) => a.fromS - b.fromS)
  const keys = [...new Set(ordered.map((s) => JSON.stringify([s.place, s.finding])))]
  return ordered.map((s) => ({ ...s, number: keys.indexOf(JSON.stringify([s.place, s.finding])) + 1 }))
}

/** The first lane whose last mark stands clear of this one, for marks centred at `xs` in ascending order. */
export function lanesOf(xs: readonly number[]): number[] {
  const ends: number[] = []
  return xs.map((x) => {
    const free = ends.findIndex((end) => x - end >= MARK_PT + 1)
    const lane = free === -1 ? ends.length : free
    ends[lane] = x
    return lane
  })
}

/** A spray's number in its mark, centred at (x, y). */
export function numberMark(
  spray: KeyedSpray,
  at: { x: number; y: number },
): { symbol: SymbolRow; label: TextRow } {
  const { shape, fill, ink } = looks(spray.finding)
  return {
    symbol: { role: 'spray', ...at, shape, size: MARK_PT ** 2, fill, stroke: fill === PAPER ? INK : fill },
    label: note('spray', String(spray.number), { ...at, align: 'center', fill: ink, weight: STRONG }),
  }
}

/** The list under a speed chart: number, place in full (wrapped, never cut), finding. Two columns, read down. */
export function sprayList(
  sprays: readonly KeyedSpray[],
  box: { left: number; top: number; right: number },
  texts: Texts,
): { heightPt: number; symbols: SymbolRow[]; texts: TextRow[] } {
  const entries = sprays.filter((s, i) => sprays.findIndex((t) => t.number === s.number) === i)
  const columns = entries.length > 1 ? 2 : 1
  const width = (box.right - box.left - (columns - 1) * COLUMN_GAP_PT) / columns
  const perColumn = Math.ceil(entries.length / columns)
  const symbols: SymbolRow[] = []
  const rows: TextRow[] = []
  let deepest = box.top
  for (let column = 0; column < columns; column += 1) {
    let y = box.top
    for (const entry of entries.slice(column * perColumn, (column + 1) * perColumn)) {
      const x = box.left + column * (width + COLUMN_GAP_PT)
      const finding = findingWord(entry.finding, texts).replaceAll(' ', '\u00a0')
      const tests = sprays.filter((s) => s.number === entry.number).flatMap(({ mark }) => mark ?? [])
      const plain = say(texts, 'chart.speed.entry', { place: entry.place, finding })
      const words =
        tests.length === 0
          ? plain
          : say(texts, 'chart.speed.entry-tests', { entry: plain, tests: tests.join(', ') })
      const lines = wrapText(words, width - MARK_PT - 5, { sizePt: TEXT_PT })
      const mark = numberMark(entry, { x: x + MARK_PT / 2, y: y + LINE_PT / 2 + 1 })
      symbols.push(mark.symbol)
      rows.push(
        mark.label,
        ...lines.map((line, i) =>
          text('spray-name', line, { x: x + MARK_PT + 5, y: y + 1 + LINE_PT * (i + 0.5) }),
        ),
      )
      y += Math.max(LINE_PT * lines.length, MARK_PT) + ENTRY_GAP_PT
    }
    deepest = Math.max(deepest, y)
  }
  return { heightPt: deepest - box.top, symbols, texts: rows }
}
