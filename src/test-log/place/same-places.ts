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
/** A cell with more words is a tale, and no name of a place. */
const MOST_WORDS = 20
/** Places alike but for one word that one is held against: a bound on the work, far beyond what an engine has. */
const MOST_ALIKE = 100

/** Places that differ from an earlier one by a slip of the pen in one word: asked about, since they count as two places. */
export function nearPlaces(entries: readonly LogEntry[]): Problem[] {
  const seen = new Set<string>()
  const alike = new Map<string, { order: number; place: string; word: string }[]>()
  return entries.flatMap(({ place, line }, order) => {
    if (place === undefined || seen.has(placeKey(place))) return []
    seen.add(placeKey(place))
    const near = partsButOne(place)
      .flatMap(({ key, word }) => (alike.get(key) ?? []).filter((other) => isSlip(other.word, word)))
      .reduce<{ order: number; place: string } | undefined>(
        (first, other) => (first === undefined || other.order < first.order ? other : first),
        undefined,
      )
    for (const { key, word } of partsButOne(place)) {
      const others = alike.get(key) ?? []
      if (others.length < MOST_ALIKE) others.push({ order, place, word })
      alike.set(key, others)
    }
    return near === undefined
      ? []
      : [
          problem(
            'near-place',
            { file: FILE, line, severity: 'warn' },
            { found: excerpt(place), nearest: excerpt(near.place) },
          ),
        ]
  })
}

/** A place without each of its words in turn: two places with the same key differ in that word alone. */
function partsButOne(place: string): { key: string; word: string }[] {
  const { words, cylinders, bank } = readPlaceWords(place)
  if (words.length > MOST_WORDS) return []
  const sorted = [...words].sort()
  return words.map((word) => ({
    key: JSON.stringify([bank, cylinders, sorted.filter((w) => w !== word)]),
    word,
  }))
}

/** Whether two words are one with a slip. */
function isSlip(one: string, other: string): boolean {
  const letters = Math.min(one.length, other.length)
  return one !== other && letters >= LEAST_LETTERS && slips(one, other) <= (letters < LONG ? 1 : 2)
}
