import { LOG_FILE as FILE } from '../job/own-files.ts'
import { problem, type Problem } from '../problems/problem.ts'
import type { LogEntry } from './entry.ts'
import { STEP_KINDS } from './steps/index.ts'
import { groupEntries } from './test-group.ts'

/**
 * Readings that stand in one test with two figures: nobody can say which of them counts, and taking either would be a
 * guess. The same figure written twice says the same thing once more. A repeated measurement has a time of its own.
 */
export function readingsTwice(entries: readonly LogEntry[]): Problem[] {
  const measured = entries.filter(
    ({ step, reading, value }) =>
      STEP_KINDS[step].readings !== undefined && reading !== undefined && value !== undefined,
  )
  return groupEntries(measured).flatMap((group) =>
    group.flatMap((entry, i) => {
      const first = group.slice(0, i).find(({ reading }) => reading === entry.reading)
      if (!first || (first.value === entry.value && first.unit === entry.unit)) return []
      return [
        problem(
          'reading-twice',
          { file: FILE, line: entry.line },
          { reading: entry.reading!, found: figure(entry), other: figure(first), line: first.line },
        ),
      ]
    }),
  )
}

const figure = ({ value, unit }: LogEntry): string =>
  [value, unit].filter((part) => part !== undefined).join(' ')
