import { LOG_FILE } from '../../job/own-files.ts'
import { problem, type Problem } from '../../problems/problem.ts'
import type { LogEntry } from '../entry.ts'
import type { Fact } from '../fact.ts'
import type { TestFinding } from '../findings.ts'
import { placeKey } from './read-words.ts'

/** Places of one log that are weighed: more than any engine has. The work grows with their square. */
const MOST_PLACES = 100

/**
 * The tests with what was found at too many places taken out: places where something was found or worked on go first,
 * then the others, each in order of time. The tests keep their number and order, and stand in the report as logged.
 */
export function ofWeighedPlaces(tests: readonly TestFinding[]): readonly TestFinding[] {
  const named = new Set(tests.flatMap(({ place }) => place ?? []))
  if (named.size <= MOST_PLACES) return tests
  const telling = new Set(tests.flatMap(({ place, facts }) => (facts?.some(isTelling) ? (place ?? []) : [])))
  const weighed = new Set([...telling, ...named].slice(0, MOST_PLACES))
  return tests.map((test) => {
    if (test.place === undefined || weighed.has(test.place)) return test
    const bare = { ...test, facts: [] }
    delete bare.place
    return bare
  })
}

function isTelling(fact: Fact): boolean {
  switch (fact.kind) {
    case 'spray-response':
    case 'isolation':
    case 'repair':
      return true
    case 'cap':
      return fact.changed
    case 'smoke':
      return fact.leak
    case 'part':
      return !fact.fine
    default:
      return false
  }
}

/** Says that a log names more places than are weighed, at the row with the first one too many. */
export function tooManyPlaces(entries: readonly LogEntry[]): Problem[] {
  const seen = new Set<string>()
  let line: number | undefined
  for (const { place, line: at } of entries) {
    if (place === undefined) continue
    seen.add(placeKey(place))
    if (seen.size > MOST_PLACES) line ??= at
  }
  if (line === undefined) return []
  const args = { found: seen.size, limit: MOST_PLACES }
  return [problem('too-many-places', { file: LOG_FILE, line, severity: 'warn' }, args)]
}
