import type { Recording } from '../capture/capture.ts'
import { readRecording } from '../capture/read-capture.ts'
import type { Job } from '../job/schema.ts'
import type { ReadingLimits } from '../limits/reading-limits.ts'
import { JobError, type Problem } from '../problems/problem.ts'
import { readAndFind } from './read-and-find.ts'

/** Decodes the captures and traces that were found, and looks for events; of the captures no samples are kept. */
export async function checkRecordings(
  job: Job,
  files: ReadonlyMap<string, string>,
  reading: ReadingLimits,
): Promise<{ traces: Map<string, Recording>; problems: Problem[] }> {
  const traces = new Map<string, Recording>()
  const problems: Problem[] = []
  const gather = async (read: () => Promise<readonly Problem[]>): Promise<void> => {
    try {
      problems.push(...(await read()))
    } catch (cause) {
      if (!(cause instanceof JobError)) throw cause
      problems.push(...cause.problems)
    }
  }
  for (const entry of job.captures.filter((e) => files.has(e.file))) {
    await gather(async () => {
      const { capture } = await readAndFind(files.get(entry.file)!, entry, { engine: job.engine, reading })
      return capture.warnings
    })
  }
  for (const entry of (job.traces ?? []).filter((e) => files.has(e.file))) {
    await gather(async () => {
      const trace = await readRecording(files.get(entry.file)!, entry, reading)
      traces.set(entry.file, trace)
      return trace.warnings
    })
  }
  return { traces, problems }
}
