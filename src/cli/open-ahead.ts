import { existsSync, readFileSync, statSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import { bytesIn } from '../batch/bytes-in.ts'
import { isMeasuredAside, openAhead, reportStands } from '../batch/measuring-thread.ts'
import { JOB_FILE } from '../job/own-files.ts'

/** A job.yaml is a page or two; anything larger is looked at later, with the limits that apply. */
const MOST_BYTES = 128 * 1024
/** Options with which a report is not of one folder in this call, or not in two threads. */
const OTHERWISE = /^--(?:jobs|list|part|redact)\b/
const WORK_ORDER = /^work_order:[ \t]*["']?([^"'\s#]+)/m

/**
 * Opens the measuring thread before the program itself is loaded, where the words of the call plainly ask for one
 * report that is not there yet: starting the thread takes as long as loading the program. A guess: what it gets wrong
 * costs some milliseconds and no result.
 */
export function openThreadAhead([command, ...words]: readonly string[]): void {
  if (command !== 'report' || words.some((word) => OTHERWISE.test(word))) return
  const [folder, ...others] = words.filter((word) => existsSync(join(word, JOB_FILE)))
  if (folder === undefined || others.length > 0 || (!words.includes('--force') && isThere(folder, words)))
    return
  if (isMeasuredAside([{ bytes: bytesIn(folder) }], availableParallelism())) openAhead()
}

/** Whether a report of the folder's work order seems to stand, or nothing can be said of it. */
function isThere(folder: string, words: readonly string[]): boolean {
  const workOrder = workOrderIn(join(folder, JOB_FILE))
  const out = words.includes('--out')
    ? words[words.indexOf('--out') + 1]
    : words.find((word) => word.startsWith('--out='))?.slice('--out='.length)
  return workOrder === undefined || reportStands(out ?? 'outputs', workOrder)
}

/** A first look at what the survey reads by the rules of job.yaml, without loading those. */
function workOrderIn(path: string): string | undefined {
  try {
    const stat = statSync(path)
    return stat.isFile() && stat.size <= MOST_BYTES
      ? WORK_ORDER.exec(readFileSync(path, 'utf8'))?.[1]
      : undefined
  } catch {
    return undefined // the job's own reader names the reason
  }
}
