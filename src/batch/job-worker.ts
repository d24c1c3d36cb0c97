import { parentPort, workerData } from 'node:worker_threads'
import { reportJob, type CallSettings, type JobTask } from './report-job.ts'

/** A worker thread: reports the jobs it is sent, one after the other, and stays warm between them. */
const settings = workerData as CallSettings
parentPort!.on('message', (task: JobTask) => {
  void reportJob(task, settings).then((outcome) => parentPort!.postMessage(outcome))
})
