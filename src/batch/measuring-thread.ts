import { existsSync } from 'node:fs'
import { Worker } from 'node:worker_threads'
import type { CaptureEntry } from '../job/schema.ts'
import { JobError, problem, type Problem } from '../problems/problem.ts'
import type { TakeAbout, Taken } from './take-capture.ts'

/** One capture for the thread. */
export interface MeasureTask { path: string; entry: CaptureEntry; about: TakeAbout }

/** How it ended there. An error loses its class and code between threads, so that they go as data. */
export type MeasureEnd =
  | { how: 'taken'; taken: Taken }
  | { how: 'refused'; problems: readonly Problem[] }
  | { how: 'failed'; message: string; isRange: boolean; stack: string | undefined; code: string | undefined; path: string | undefined }

/** A second thread that measures captures, one after the other, while the first gets ready to draw. */
export interface MeasuringThread {
  /** @throws what measuring in this thread would have thrown */
  take(path: string, entry: CaptureEntry, about: TakeAbout): Promise<Taken>
  close(): Promise<void>
}

const SCRIPT = new URL('./measure-worker.js', import.meta.url)

/** Opens the thread; undefined where the program runs from its sources, whose script is no JavaScript. */
export function openMeasuringThread(): MeasuringThread | undefined {
  if (!existsSync(SCRIPT)) return undefined
  const worker = new Worker(SCRIPT)
  worker.unref() // an open thread alone does not keep the program
  return {
    async take(path, entry, about) {
      worker.ref()
      const end = await new Promise<MeasureEnd>((settle, fail) => {
        const broken = (cause: NodeJS.ErrnoException) => fail(cause.code === 'ERR_WORKER_OUT_OF_MEMORY'
          ? new JobError([problem('out-of-memory', { file: entry.file }, { limit: '' })], { cause }) : cause)
        const gone = (code: number) => fail(new Error(`measuring thread ended with code ${code}`))
        worker.once('error', broken).once('exit', gone).once('message', (said: MeasureEnd) => {
          worker.off('error', broken).off('exit', gone)
          settle(said)
        })
        worker.postMessage({ path, entry, about } satisfies MeasureTask)
      })
      worker.unref()
      if (end.how === 'taken') return end.taken
      throw end.how === 'refused' ? new JobError(end.problems) : errorOf(end)
    },
    async close() { await worker.terminate() },
  }
}

function errorOf({ message, isRange, stack, code, path }: Extract<MeasureEnd, { how: 'failed' }>): Error {
  const error = isRange ? new RangeError(message) : new Error(message)
  return Object.assign(error, stack === undefined ? {} : { stack }, code === undefined ? {} : { code }, path === undefined ? {} : { path })
}
