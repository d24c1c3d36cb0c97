import type { Problem } from '../problems/problem.ts'
import type { JobParts } from './parts.ts'
import type { Job } from './schema.ts'

/** One cell row of test-log.csv, as written, with its place. Empty cells are absent. */
export interface LogRow {
  /** 1-based line of test-log.csv. */
  line: number
  cells: Readonly<Record<string, string>>
  /** Place of each named column in the file, 1-based; absent for rows that come from no file. */
  columns?: Readonly<Record<string, number>>
}

/** A job folder read and checked, captures and traces not yet decoded. */
export interface JobFolder {
  /** Absolute path of the folder, real (links followed). */
  folder: string
  job: Job
  log: readonly LogRow[]
  /** Path relative to the folder (forward slashes) -> absolute real path, for every file the job names, job.yaml and
   * test-log.csv (where there is one) among them. */
  files: ReadonlyMap<string, string>
  /** Line in job.yaml of a key path such as `captures.0.file`, for problems found later. */
  lineOf: (path: string) => number | undefined
  /** Reviews, each with its key path. */
  reviews: JobParts['reviews']
  /** Warnings; anything that refuses is thrown as a JobError instead. */
  warnings: readonly Problem[]
}
