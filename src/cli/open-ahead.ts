import { existsSync, readFileSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import { bytesIn } from '../batch/bytes-in.ts'
import { isMeasuredAside, openAhead } from '../batch/measuring-thread.ts'

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
  const [folder, ...others] = words.filter((word) => existsSync(join(word, 'job.yaml')))
  if (folder === undefined || others.length > 0 || (!words.includes('--force') && isThere(folder, words))) return
  if (isMeasuredAside([{ bytes: bytesIn(folder) }], availableParallelism())) openAhead()
}

/** Whether a report of the folder's work order seems to stand. */
function isThere(folder: string, words: readonly string[]): boolean {
  const out = words.includes('--out') ? words[words.indexOf('--out') + 1] : words.find((word) => word.startsWith('--out='))?.slice('--out='.length)
  const [, workOrder] = WORK_ORDER.exec(readFileSync(join(folder, 'job.yaml'), 'utf8')) ?? []
  return workOrder !== undefined && existsSync(join(out ?? 'outputs', workOrder, 'manifest.json'))
}
