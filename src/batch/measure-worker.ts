import { parentPort } from 'node:worker_threads'
import { JobError } from '../problems/problem.ts'
import type { MeasureEnd, MeasureTask } from './measuring-thread.ts'
import { takeCapture } from './take-capture.ts'

/** The measuring thread: takes the captures it is sent, one after the other. Every failure is an answer. */
parentPort!.on('message', ({ path, entry, about }: MeasureTask) => {
  void takeCapture(path, entry, about)
    .then((taken): MeasureEnd => ({ how: 'taken', taken }), failed)
    .then((end) => parentPort!.postMessage(end))
})

function failed(cause: unknown): MeasureEnd {
  if (cause instanceof JobError) return { how: 'refused', problems: cause.problems }
  const { message, stack, code, path } = cause as Partial<NodeJS.ErrnoException>
  return {
    how: 'failed',
    message: message ?? String(cause),
    isRange: cause instanceof RangeError,
    stack,
    code,
    path,
  }
}
