import { problem, type Problem } from './problem.ts'

/** Problems shown of one file; a reader acts on the first few, and a broken file can hold millions. */
const SHOWN_PROBLEMS = 100

/**
 * The first problems of one file, and a `more-problems` with the count of the others.
 * Refusals come before warnings, so that the cap never hides one behind a note. The input is consumed one by one
 * and only what is shown is kept.
 *
 * @param file  the file they are of, as the job names it
 */
export function capProblems(file: string, found: Iterable<Problem>, most = SHOWN_PROBLEMS): Problem[] {
  const kept: Record<Problem['severity'], Problem[]> = { refuse: [], warn: [] }
  const counted: Record<Problem['severity'], number> = { refuse: 0, warn: 0 }
  for (const p of found) {
    counted[p.severity]++
    if (kept[p.severity].length < most) kept[p.severity].push(p)
  }
  const shown = [...kept.refuse, ...kept.warn].slice(0, most)
  const count = counted.refuse + counted.warn - shown.length
  const severity = counted.refuse > kept.refuse.length ? 'refuse' : 'warn'
  return count === 0 ? shown : [...shown, problem('more-problems', { file, severity }, { count })]
}
