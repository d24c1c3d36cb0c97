import { JobError, problem, type Problem, type Severity } from '../problems/problem.ts'
import { locateFile } from './locate-files.ts'
import { KNOWN_COLUMNS } from './log-steps.ts'
import { readText } from './read-text.ts'

/** Names of the files every job folder has. */
export const JOB_FILE = 'job.yaml'
export const LOG_FILE = 'test-log.csv'

/** A file of the folder by its fixed name: its text and where it is, or what is wrong with it. */
export interface OwnFile {
  text: string | undefined
  found: readonly [string, string][]
  problems: readonly Problem[]
}

/**
 * Reads a file of the folder.
 *
 * @param folder  real path of the job folder
 * @param absent  how bad it is when the file is not there
 */
export async function ownFile(
  folder: string,
  { file, limit, absent }: { file: string; limit: number; absent: Severity },
): Promise<OwnFile> {
  const located = await locateFile(folder, file, { file })
  if (!located.ok) {
    const severity = located.problem.code === 'missing-file' ? absent : 'refuse'
    return { text: undefined, found: [], problems: [{ ...located.problem, severity }] }
  }
  const found: [string, string][] = [[file, located.path]]
  try {
    return { text: await readText({ file, path: located.path, limit }), found, problems: [] }
  } catch (cause) {
    if (!(cause instanceof JobError)) throw cause
    // A log nobody has written to yet is one without tests.
    if (file === LOG_FILE && cause.problems.every(({ code }) => code === 'empty-file'))
      return { text: `${KNOWN_COLUMNS.join(',')}\n`, found, problems: [] }
    const problems = cause.problems.map((p) =>
      p.code === 'empty-file' && file === JOB_FILE ? problem('empty-job', { file }, {}) : p,
    )
    return { text: undefined, found, problems }
  }
}
