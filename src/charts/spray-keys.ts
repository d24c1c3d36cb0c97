import type { DrawnSpeed } from '../records/drawn-traces.ts'
import type { Finding } from '../test-log/findings.ts'
import type { Texts, WordKey } from '../texts/messages.ts'
import { say, wordOf } from '../texts/say.ts'
import { ACCENT, INK, PAPER, TEXT_PT } from './theme.ts'
import { wrapText } from './wrap-text.ts'

/** A spray with its key number: the same place with the same finding keeps its number. */
interface KeyedSpray {
  number: number
  fromS: number
  toS: number
  place: string
  finding: string
  mark?: string
}

/** Number marks: pt across, and the room a lane of them takes. */
export const MARK_PT = 11
export const LANE_PT = 13
/** Lines of the list, and the white between two of its entries in lines. */
export const LINE_PT = 10
const ENTRY_GAP_LINES = 0.3
const COLUMN_GAP_PT = 14

const OTHER = { shape: 'square', fill: PAPER, ink: INK }
/** A finding's mark: filled where the engine answered, hollow where it did not, other shapes for the rest. */
export const LOOKS = {
  response: { shape: 'circle', fill: ACCENT, ink: PAPER },
  'no response': { shape: 'circle', fill: PAPER, ink: INK },
  unclear: OTHER,
  'in limits': OTHER,
  'out of limits': OTHER,
  recorded: OTHER,
} as const satisfies Record<Finding, object>

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

/** The first lane whose last mark stands clear of this one, for marks centred at `xs` pt in ascending order. */
export function lanesOf(xs: readonly number[]): number[] {
  const ends: number[] = []
  return xs.map((x) => {
    const free = ends.findIndex((end) => x - end >= MARK_PT + 1)
    const lane = free === -1 ? ends.length : free
    ends[lane] = x
    return lane
  })
}

/** An entry of the list: its words in lines, and where it begins, in columns and lines from the list's top left. */
interface Entry {
  number: number
  finding: string
  words: readonly string[]
  column: number
  line: number
}

/** The list under a speed chart: number, place in full (wrapped, never cut), finding. Two columns, read down. */
export function sprayList(
  sprays: readonly KeyedSpray[],
  widthPt: number,
  texts: Texts,
): { entries: Entry[]; lines: number; stepPt: number } {
  const keyed = sprays.filter((s, i) => sprays.findIndex((t) => t.number === s.number) === i)
  const columns = keyed.length > 1 ? 2 : 1
  const columnPt = (widthPt - (columns - 1) * COLUMN_GAP_PT) / columns
  const perColumn = Math.ceil(keyed.length / columns)
  const ends = [0, 0]
  const entries = keyed.map((spray, i): Entry => {
    const column = Math.floor(i / perColumn)
    const words = wrapText(entryWords(spray, sprays, texts), columnPt - MARK_PT - 5, { sizePt: TEXT_PT })
    const line = ends[column]!
    ends[column] = line + words.length + ENTRY_GAP_LINES
    return { number: spray.number, finding: spray.finding, words, column, line }
  })
  return { entries, lines: Math.max(...ends), stepPt: columnPt + COLUMN_GAP_PT }
}

function entryWords(entry: KeyedSpray, sprays: readonly KeyedSpray[], texts: Texts): string {
  const finding = findingWord(entry.finding, texts).replaceAll(' ', '\u00a0')
  const tests = sprays.filter((s) => s.number === entry.number).flatMap(({ mark }) => mark ?? [])
  const plain = say(texts, 'chart.speed.entry', { place: entry.place, finding })
  return tests.length === 0
    ? plain
    : say(texts, 'chart.speed.entry-tests', { entry: plain, tests: tests.join(', ') })
}
