/** How much of a job's own files is read at most. A file beyond a limit is refused with a code, never cut silently. */
export interface JobLimits {
  /** Bytes of job.yaml: bounds the parser's work. A long job is some 10 kB. */
  jobBytes: number
  /** Bytes of test-log.csv: bounds its rows. A long log is some 50 kB. */
  logBytes: number
  /** Bytes of one photo. One from a good camera is some 10 MB. */
  photoBytes: number
}

export const DEFAULT_JOB_LIMITS: JobLimits = { jobBytes: 128 * 1024, logBytes: 1024 * 1024, photoBytes: 32 * 1024 * 1024 }
