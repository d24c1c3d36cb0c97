import type { Problem } from '../problems/problem.ts'
import type { Unjudged } from '../records/unjudged.ts'
import type { Why } from './up-to-date.ts'

/** How one folder of a call ended. Plain data: it crosses from worker threads. */
export type JobOutcome =
  | {
      folder: string
      state: 'reported'
      workOrder: string
      verdict: string
      /** Folder of the output. */
      output: string
      /** SHA-256 of its manifest.json as it was written, or as it was checked: what is entered in a ledger. */
      manifest: string
      /** True where the output that stood was found to be the one asked for. */
      upToDate: boolean
      /** Why it was made; empty where it was up to date. */
      why: readonly Why[]
      warnings: readonly Problem[]
      /** Cylinders without a verdict; not looked at where it was up to date. */
      unjudged: readonly Unjudged[]
    }
  | {
      folder: string
      state: 'invalid'
      problems: readonly Problem[]
      /** Where a fault of ours happened. */ stack?: string
    }
  /** Not begun, or given up before it was done: the call was stopped. */
  | { folder: string; state: 'skipped' }

/** How many of a call's jobs ended how; `jobs` is the sum of the other three. */
export interface Tally {
  jobs: number
  reported: number
  upToDate: number
  invalid: number
  skipped: number
}

/** Counts outcomes. */
export function tallyOf(outcomes: readonly JobOutcome[]): Tally {
  const count = (state: JobOutcome['state']) => outcomes.filter((o) => o.state === state).length
  return {
    jobs: outcomes.length,
    reported: count('reported'),
    invalid: count('invalid'),
    skipped: count('skipped'),
    upToDate: outcomes.filter((o) => o.state === 'reported' && o.upToDate).length,
  }
}
