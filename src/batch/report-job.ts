import { basename, join, resolve, sep } from 'node:path'
import { PASSING } from '../problems/passing.ts'
import { JobError, problem, type Problem } from '../problems/problem.ts'
import type { Texts } from '../texts/messages.ts'
import { sealedReport } from '../evidence/sealed-report.ts'
import { sha256 } from '../maths/sha256.ts'
import type { JobOutcome } from './job-outcome.ts'
import type { MadeWith } from '../evidence/made-with.ts'
import { NO_STORE, openStore, STORE_FOLDER } from '../chain/measured-store.ts'
import { keepReplaced } from '../chain/replaced-report.ts'
import type { PageOptions } from '../chain/run-job.ts'
import { unjudgedOf } from '../records/unjudged.ts'
import type { Why } from './up-to-date.ts'
import { writeWhole } from '../files/write-whole.ts'

/** What every job of a call has in common. Plain data: it crosses to worker threads. */
export interface CallSettings {
  /** Absolute path of the folder that receives one folder a work order. */
  outRoot: string
  options: PageOptions
  made: MadeWith
  texts: Texts
}

/** One job of a call. */
export interface JobTask {
  folder: string
  why: readonly Why[]
}

/**
 * Reports one job and writes its output. This is the only place where a job's failure is caught: it becomes an outcome,
 * and an error without a code becomes `internal-error`.
 */
export async function reportJob(
  { folder, why }: JobTask,
  { outRoot, options, made, texts }: CallSettings,
): Promise<JobOutcome> {
  const path = resolve(folder)
  try {
    // Whoever can write beside the outputs can write a measurement too: what is signed is measured now.
    const anew = options.signingKeyPem !== undefined || why.some(({ code }) => code === 'forced')
    const kept = openStore(join(outRoot, STORE_FOLDER))
    const store = anew ? { ...kept, find: NO_STORE.find } : kept
    const { files, result, warnings } = await sealedReport(path, { ...options, made, store }, texts)
    const workOrder = result.job.work_order
    const output = join(outRoot, workOrder)
    if (options.replaces !== undefined) keepReplaced(options.replaces, workOrder, output)
    await writeWhole(output, files)
    return {
      folder,
      state: 'reported',
      workOrder,
      verdict: result.conclusion.headline.text,
      output,
      manifest: sha256(files.get('manifest.json')!),
      upToDate: false,
      why,
      warnings,
      unjudged: unjudgedOf(result),
    }
  } catch (cause) {
    if (cause instanceof JobError) return { folder, state: 'invalid', problems: cause.problems }
    const { found, stack } = unforeseen(cause, path)
    return { folder, state: 'invalid', problems: [found], ...(stack === undefined ? {} : { stack }) }
  }
}

/** Messages of V8 when it cannot get the memory that was asked for. */
const NO_MEMORY =
  /Array buffer allocation failed|Invalid (typed )?array (buffer )?length|Invalid string length/

/** An error without a code as a problem: an input that went away under us, memory that ran out, or a fault of ours. */
function unforeseen(cause: unknown, folder: string): { found: Problem; stack?: string } {
  const { code, path, message, stack } = cause as Partial<NodeJS.ErrnoException>
  const file = basename(folder)
  if (typeof path === 'string' && path.startsWith(folder + sep) && code !== undefined) {
    const inside = path
      .slice(folder.length + 1)
      .split(sep)
      .join('/')
    return {
      found:
        code === 'ENOENT'
          ? problem('missing-file', { file: inside }, { path: inside, nearest: '' })
          : problem('unreadable-file', { file: inside }, { path: inside, why: code }),
    }
  }
  if (code !== undefined && PASSING.has(code))
    return { found: problem('system-short', { file }, { why: code }) }
  if (cause instanceof RangeError && NO_MEMORY.test(cause.message))
    return { found: problem('out-of-memory', { file }, { limit: '' }) }
  return {
    found: problem('internal-error', { file }, { what: message ?? String(cause) }),
    ...(stack === undefined ? {} : { stack }),
  }
}
