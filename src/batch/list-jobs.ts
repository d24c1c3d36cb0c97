import { existsSync, readdirSync } from 'node:fs'
import { basename, dirname, join, resolve } from 'node:path'
import { inspectJob } from '../job/inspect-job.ts'
import { JOB_FILE } from '../job/own-files.ts'
import type { ReadingLimits } from '../limits/reading-limits.ts'
import { digestFile } from '../files/digest-file.ts'
import { sha256 } from '../maths/sha256.ts'
import { statOf } from '../files/stat-of.ts'
import { survey, type SurveyedJob } from './survey.ts'

/** A job as listed: enough to split many jobs over machines and to see later that none has changed. */
export interface ListedJob extends SurveyedJob {
  /** SHA-256 of the list of its input files, one line `<sha256>  <name>` each in the order of names, as sha256sum writes it. */
  sha256: string
}

/** A folder that holds job.yaml stands for itself, any other for those of its folders that do, in the order of names. */
export function jobFolders(folders: readonly string[]): string[] {
  return folders.flatMap((folder) => {
    if (basename(folder) === JOB_FILE && existsSync(folder)) return [dirname(folder)]
    if (existsSync(join(folder, JOB_FILE)) || !statOf(folder)?.isDirectory()) return [folder]
    const jobs = readdirSync(folder)
      .sort()
      .map((name) => join(folder, name))
      .filter((inside) => existsSync(join(inside, JOB_FILE)))
    // A folder with no job in it or below it is told to lack its job.yaml, rather than passed over.
    return jobs.length > 0 ? jobs : [folder]
  })
}

/**
 * Lists one job, every input file hashed.
 *
 * @throws JobError where the folder is not there
 */
export async function listJob(folder: string, limits: ReadingLimits): Promise<ListedJob> {
  const { files } = await inspectJob(resolve(folder), limits)
  const lines: string[] = []
  for (const [file, path] of [...files].sort(([a], [b]) => (a < b ? -1 : 1))) {
    lines.push(`${(await digestFile(path)).sha256}  ${file}\n`)
  }
  return { ...survey([folder], limits)[0]!, sha256: sha256(lines.join('')) }
}
