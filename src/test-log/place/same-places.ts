import { excerpt } from '../../job/excerpt.ts'
import { LOG_FILE as FILE } from '../../job/own-files.ts'
import { slips } from '../../problems/nearest.ts'
import { problem, type Problem } from '../../problems/problem.ts'
import type { LogEntry } from '../entry.ts'
import { momentS } from '../moment.ts'
import { placeKey, readPlaceWords } from './read-words.ts'

/**
 * Rows with every way of writing one place turned into one: "runner joint cyl. 2" and "runner joint cylinder 2" are the
 * same joint. The first written (by time, then by line) stands for all.
 */
export function withSamePlaces(entries: readonly LogEntry[]): LogEntry[] {
  const order = [...entries].sort((a, b) => momentS(a.at) - momentS(b.at) || a.line - b.line)
  const first = new Map<string, string>()
  for (const { place } of order) {
    if (place === undefined) continue
    const key = placeKey(place)
    if (!first.has(key)) first.set(key, place)
  }
  return entries.map((entry) =>
    entry.place === undefined ? entry : { ...entry, place: first.get(placeKey(entry.place))! },
  )
}

/** Words so short that a slip makes another word of them, and those in which one slip at most is one. */
const LEAST_LETTERS = 5
const LONG = 8

/** Places that differ from an earlier one by a slip of the pen in one word: asked about, since they count as two places. */
export function nearPlaces(entries: readonly LogEntry[]): Problem[] {
  const seen: string[] = []
  return entries.flatMap(({ place, line }) => {
    if (place === undefined || seen.some((s) => placeKey(s) === placeKey(place))) return []
    const near = seen.find((s) => isSlip(s, place))
    seen.push(place)
    return near === undefined
      ? []
      : [
          problem(
            'near-place',
            { file: FILE, line, severity: 'warn' },
            { found: excerpt(place), nearest: excerpt(near) },
          ),
        ]
  })
}

/** The same cylinders and bank, and all words alike but one, which differs by a slip. */
function isSlip(a: string, b: string): boolean {
  const [one, two] = [readPlaceWords(a), readPlaceWords(b)]
  if (one.bank !== two.bank || String(one.cylinders) !== String(two.cylinders)) return false
  const only = (of: readonly string[], others: readonly string[]) => of.filter((w) => !others.includes(w))
  const [left, right] = [only(one.words, two.words), only(two.words, one.words)]
  if (left.length !== 1 || right.length !== 1) return false
  const [x, y] = [left[0]!, right[0]!]
  const letters = Math.min(x.length, y.length)
  return letters >= LEAST_LETTERS && slips(x, y) <= (letters < LONG ? 1 : 2)
}
