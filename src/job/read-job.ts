import { JobError } from '../problems/problem.ts'
import { inspectJob } from './inspect-job.ts'
import type { JobFolder } from './job-folder.ts'
import { readingLimits, type ReadingLimits } from '../limits/reading-limits.ts'

/**
 * Reads and checks a job folder; the contents of captures, traces and photos are read elsewhere.
 *
 * @param folder  path of the job folder
 * @throws JobError once, with every problem of job.yaml, test-log.csv and the files they name
 */
export async function readJob(folder: string, limits: ReadingLimits = readingLimits()): Promise<JobFolder> {
  const { job, problems, ...read } = await inspectJob(folder, limits)
  if (job === undefined || problems.some((p) => p.severity === 'refuse')) throw new JobError(problems)
  return { ...read, job, warnings: problems }
}
