import { readRecording } from '../../capture/read-capture.ts'
import type { Recording } from '../../capture/capture.ts'
import type { JobFolder } from '../../job/job-folder.ts'
import type { ReadingLimits } from '../../limits/reading-limits.ts'
import { JobError, type Problem } from '../../problems/problem.ts'

/** Every slow trace of the job, decoded; problems of all of them are gathered. */
export async function readTraces(
  jobFolder: JobFolder,
  reading: ReadingLimits,
): Promise<{ traces: Map<string, Recording>; problems: Problem[] }> {
  const traces = new Map<string, Recording>()
  const problems: Problem[] = []
  for (const entry of jobFolder.job.traces ?? []) {
    try {
      const recording = await readRecording(jobFolder.files.get(entry.file)!, entry, reading)
      traces.set(entry.file, recording)
      problems.push(...recording.warnings)
    } catch (cause) {
      if (!(cause instanceof JobError)) throw cause
      problems.push(...cause.problems)
    }
  }
  return { traces, problems }
}
