import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { Worker } from 'node:worker_threads'
import type { CaptureEntry } from '../job/schema.ts'
import { JobError, problem, type Problem } from '../problems/problem.ts'
import type { SurveyedJob } from './survey.ts'
import type { TakeAbout, Taken } from './take-capture.ts'

/** One capture for the thread. */
export interface MeasureTask {
  path: string
  entry: CaptureEntry
  about: TakeAbout
}

/** How it ended there. An error loses its class and code between threads, so that they go as data. */
export type MeasureEnd =
  | { how: 'taken'; taken: Taken }
  | { how: 'refused'; problems: readonly Problem[] }
  | {
      how: 'failed'
      message: string
      isRange: boolean
      stack: string | undefined
      code: string | undefined
      path: string | undefined
    }

/** A second thread that measures captures, one after the other, while the first gets ready to draw. */
export interface MeasuringThread {
  /** @throws what measuring in this thread would have thrown */
  take(path: string, entry: CaptureEntry, about: TakeAbout): Promise<Taken>
  close(): Promise<void>
}

const SCRIPT = new URL('./measure-worker.js', import.meta.url)

/**
 * Largest job, bytes as stored, measured in a second thread: what draws is then in memory beside the samples. With five
 * million rows that was no faster and took 30 MiB more, of the 250 MB a report may take.
 */
const MOST_ASIDE_BYTES = 16 * 2 ** 20

/** Whether a call of these jobs has one measured in a thread of its own: a single one, not too large, with a processor for it. */
export const isMeasuredAside = (jobs: readonly Pick<SurveyedJob, 'bytes'>[], workers: number): boolean =>
  jobs.length === 1 && workers > 1 && jobs[0]!.bytes <= MOST_ASIDE_BYTES

/** Whether a report stands of a work order, up to date or not: then most likely nothing will be measured. */
export const reportStands = (outRoot: string, workOrder: string): boolean =>
  existsSync(join(outRoot, workOrder, 'manifest.json'))

/** A thread that was opened before it was known what is asked for. */
let ahead: MeasuringThread | undefined

/** Opens the thread on a guess; `openEarly` takes it, or closes it. */
export function openAhead(): void {
  ahead = openMeasuringThread()
}

/**
 * The thread of a call, opened before anything else is read, since starting it takes about as long as that. Where a
 * report stands it is not.
 */
export function openEarly(
  jobs: readonly SurveyedJob[],
  { workers, outRoot, force }: { workers: number; outRoot: string; force: boolean },
): MeasuringThread | undefined {
  const [job] = jobs
  const stands = job?.workOrder !== undefined && reportStands(outRoot, job.workOrder)
  if (isMeasuredAside(jobs, workers) && (force || !stands)) return ahead ?? openMeasuringThread()
  void ahead?.close()
  return undefined
}

/** Opens the thread; undefined where the program runs from its sources, whose script is no JavaScript. */
export function openMeasuringThread(): MeasuringThread | undefined {
  if (!existsSync(SCRIPT)) return undefined
  const worker = new Worker(SCRIPT)
  worker.unref() // an open thread alone does not keep the program
  return {
    async take(path, entry, about) {
      worker.ref()
      const end = await new Promise<MeasureEnd>((settle, fail) => {
        const broken = (cause: NodeJS.ErrnoException) =>
          fail(
            cause.code === 'ERR_WORKER_OUT_OF_MEMORY'
              ? new JobError([problem('out-of-memory', { file: entry.file }, { limit: '' })], { cause })
              : cause,
          )
        const gone = (code: number) => fail(new Error(`measuring thread ended with code ${code}`))
        worker
          .once('error', broken)
          .once('exit', gone)
          .once('message', (said: MeasureEnd) => {
            worker.off('error', broken).off('exit', gone)
            settle(said)
          })
        worker.postMessage({ path, entry, about } satisfies MeasureTask)
      })
      worker.unref()
      if (end.how === 'taken') return end.taken
      throw end.how === 'refused' ? new JobError(end.problems) : errorOf(end)
    },
    async close() {
      await worker.terminate()
    },
  }
}

function errorOf({ message, isRange, stack, code, path }: Extract<MeasureEnd, { how: 'failed' }>): Error {
  const error = isRange ? new RangeError(message) : new Error(message)
  return Object.assign(
    error,
    stack === undefined ? {} : { stack },
    code === undefined ? {} : { code },
    path === undefined ? {} : { path },
  )
}
