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

/** What a check found, and whether it read captures and traces. */
export interface Checked {
  /** Refusals and warnings in the order of the files; empty where all is in order. */
  problems: Problem[]
  captures: boolean
}

/** Text of captures and traces that is read and searched for events in under two seconds on a common machine, bytes. */
const QUICK_BYTES = 40 * 2 ** 20

/**
 * Everything that is wrong or missing in a job folder, of all stages in one pass: job.yaml, the log's rows and cells,
 * the files they name, and what is in the captures and traces.
 *
 * @param folder  path of the job folder
 * @param captures  read the captures and traces as well: always, never, or where they are short enough to be quick
 * @param reading   how much is read at most
 * @throws JobError  where there is no folder to read
 */
export async function checkJob(
  folder: string,
  {
    captures,
    reading = readingLimits(),
  }: { captures: boolean | 'where quick'; reading?: ReadingLimits | undefined },
): Promise<Checked> {
  const inspection = await inspectJob(folder, reading)
  const { job } = inspection
  const read =
    job !== undefined && (captures === true || (captures === 'where quick' && (await isQuick(inspection))))
  const recordings =
    read && job
      ? // Loaded only where asked: without it the check is over before the decoder is.
        await (await import('./check-recordings.ts')).checkRecordings(job, inspection.files, reading)
      : { traces: new Map<string, Recording>(), problems: [] }
  const ofRows = rowProblems(inspection, recordings.traces).filter(
    (p) => !inspection.problems.some((q) => samePlace(p, q)),
  )
  const [ofJob, ofLog] = [true, false].map((isJob) =>
    inspection.problems.filter(({ file }) => (file !== LOG_FILE) === isJob),
  )
  return {
    captures: read,
    problems: [
      ...[...reviewProblems(inspection), ...ofJob!].sort((a, b) => (a.line ?? 0) - (b.line ?? 0)),
      ...ofLog!,
      ...capProblems(LOG_FILE, ofRows),
      ...(await unnamedFiles(inspection)),
      ...recordings.problems.filter((p) => !inspection.problems.some((q) => sameFault(p, q))),
    ],
  }
}

/** By the length of the text, so that two machines say the same. */
async function isQuick({ job, files }: Inspection): Promise<boolean> {
  const { expectedTextBytes } = await import('../capture/byte-source.ts')
  let bytes = 0
  for (const { file } of [...job!.captures, ...(job!.traces ?? [])]) {
    const path = files.get(file)
    if (path === undefined) continue
    bytes += await expectedTextBytes(path)
    if (bytes > QUICK_BYTES) return false
  }
  return true
}

/** The same said of job.yaml and of the capture it names. */
const sameFault = (a: Problem, b: Problem): boolean =>
  a.code === b.code && JSON.stringify(a.args) === JSON.stringify(b.args)

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
