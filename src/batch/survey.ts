import { statSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { JOB_FILE } from '../job/own-files.ts'
import { readingLimits, type ReadingLimits } from '../limits/reading-limits.ts'
import { bytesIn } from './bytes-in.ts'
import { workOrderOf } from './work-order-of.ts'
import { readRegularText } from '../files/regular-file.ts'

/** A folder of a call before anything of it is decoded. */
export interface SurveyedJob {
  /** As the caller named it. */
  folder: string
  /** Undefined where job.yaml cannot be read or names none: reporting it says why. */
  workOrder: string | undefined
  /** Bytes of all files in the folder; 0 where they cannot be listed. */
  bytes: number
  /** Folder given earlier in the call with the same work order. */
  earlier: string | undefined
}

/** Looks at the folders of a call, in their order. */
export const survey = (folders: readonly string[], limits: ReadingLimits = readingLimits()): SurveyedJob[] =>
  withEarlier(
    folders.map((folder) => ({
      folder,
      workOrder: workOrderIn(resolve(folder), limits),
      bytes: bytesIn(resolve(folder)),
    })),
  )

/**
 * Names for each folder the earlier one that has the same work order. The first in the order given has it, whatever
 * becomes of its job, so that neither the order of finishing nor a split over machines makes a difference.
 */
export function withEarlier(jobs: readonly Omit<SurveyedJob, 'earlier'>[]): SurveyedJob[] {
  const first = new Map<string, string>()
  return jobs.map((job) => {
    const { folder, workOrder } = job
    const earlier = workOrder === undefined ? undefined : first.get(workOrder)
    if (workOrder !== undefined && earlier === undefined) first.set(workOrder, folder)
    return { ...job, earlier }
  })
}

function workOrderIn(folder: string, { jobBytes }: ReadingLimits): string | undefined {
  try {
    const path = join(folder, JOB_FILE)
    const stat = statSync(path)
    return stat.isFile() && stat.size <= jobBytes ? workOrderOf(readRegularText(path)) : undefined
  } catch {
    return undefined // the job's own reader names the reason
  }
}
