import type { Recording } from '../capture/capture.ts'
import { inspectJob, type Inspection } from '../job/inspect-job.ts'
import { LOG_FILE } from '../job/own-files.ts'
import { readingLimits, type ReadingLimits } from '../limits/reading-limits.ts'
import { capProblems } from '../problems/cap-problems.ts'
import type { Problem } from '../problems/problem.ts'
import { checkEntries } from '../test-log/check-entries.ts'
import { readEntries } from '../test-log/log-entry.ts'
import { placeCells } from '../test-log/place-cells.ts'
import { reviewProblems } from './review-words.ts'
import { unnamedFiles } from './unnamed-files.ts'

/**
 * Everything that is wrong or missing in a job folder, of all stages in one pass: job.yaml, the log's rows and cells,
 * the files they name, and where asked what is in the captures and traces.
 *
 * @param folder  path of the job folder
 * @param captures  read the captures and traces as well
 * @param reading   how much is read at most
 * @returns refusals and warnings in the order of the files; empty where all is in order
 * @throws JobError  where there is no folder to read
 */
export async function checkJob(
  folder: string,
  { captures, reading = readingLimits() }: { captures: boolean; reading?: ReadingLimits | undefined },
): Promise<Problem[]> {
  const inspection = await inspectJob(folder, reading)
  const recordings =
    captures && inspection.job
      ? // Loaded only where asked: without it the check is over before the decoder is.
        await (
          await import('./check-recordings.ts')
        ).checkRecordings(inspection.job, inspection.files, reading)
      : { traces: new Map<string, Recording>(), problems: [] }
  const ofRows = rowProblems(inspection, recordings.traces).filter(
    (p) => !inspection.problems.some((q) => samePlace(p, q)),
  )
  const [ofJob, ofLog] = [true, false].map((isJob) =>
    inspection.problems.filter(({ file }) => (file !== LOG_FILE) === isJob),
  )
  return [
    ...[...reviewProblems(inspection), ...ofJob!].sort((a, b) => (a.line ?? 0) - (b.line ?? 0)),
    ...ofLog!,
    ...capProblems(LOG_FILE, ofRows),
    ...(await unnamedFiles(inspection)),
    ...recordings.problems,
  ]
}

/** The same fault of the same cell, met by the log's reader and by the step's. */
const samePlace = (a: Problem, b: Problem): boolean =>
  a.code === b.code && a.file === b.file && a.line === b.line && a.column === b.column

function rowProblems({ log, job }: Inspection, traces: ReadonlyMap<string, Recording>): Problem[] {
  const rows = readEntries(log)
  const entries = rows.flatMap(({ entry }) => entry ?? [])
  const source = job && { traces, speeds: new Map(), job }
  const found = [...rows.flatMap(({ problems }) => problems), ...checkEntries(entries, { job, source })]
  return placeCells(
    log,
    found.sort((a, b) => (a.line ?? 0) - (b.line ?? 0)),
  )
}
