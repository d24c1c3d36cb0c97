import type { Job } from '../job/schema.ts'
import type { Problem } from '../problems/problem.ts'
import { checkOutcome } from './check-outcomes.ts'
import { checkTrace, type TraceSource } from './check-traces.ts'
import type { LogEntry } from './entry.ts'
import { nearPlaces } from './place/same-places.ts'
import { tooManyPlaces } from './place/weighed-places.ts'
import { readingsTwice } from './readings-twice.ts'
import { doubtfulUnits } from './units-of-a-test.ts'
import { checkReading } from './usual-readings.ts'

/** Everything that can be said of the rows of a log once their cells are read; `source` and job where they are known. */
export function checkEntries(
  entries: readonly LogEntry[],
  { job, source }: { job: Job | undefined; source: TraceSource | undefined },
): Problem[] {
  return [
    ...entries.flatMap((e) => [
      ...(job ? checkReading(e, job) : []),
      ...(source ? checkTrace(e, source) : []),
      ...checkOutcome(e),
    ]),
    ...readingsTwice(entries),
    ...doubtfulUnits(entries),
    ...nearPlaces(entries),
    ...tooManyPlaces(entries),
  ]
}
