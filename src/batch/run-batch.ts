import { join, resolve } from 'node:path'
import { loadLimits, withValues } from '../limits/limits.ts'
import { JobError, problem, type Problem } from '../problems/problem.ts'
import type { Texts } from '../texts/messages.ts'
import type { JobOutcome } from './job-outcome.ts'
import { clearLeftovers } from '../files/leftovers.ts'
import { readingLimits } from '../limits/reading-limits.ts'
import { askedJob } from './asked-job.ts'
import { madeForCall, madeForHistory, madeForReissue } from '../evidence/made-for-call.ts'
import type { MadeWith } from '../evidence/made-with.ts'
import { pruneStore, STORE_FOLDER } from '../chain/measured-store.ts'
import { reportJob, type CallSettings, type JobTask } from './report-job.ts'
import { replacedReport } from '../chain/replaced-report.ts'
import type { PageOptions } from '../chain/run-job.ts'
import type { SurveyedJob } from './survey.ts'
import { signerFor } from '../seal/signing-key.ts'
import { standingOf, type Wanted, type Why } from './up-to-date.ts'
import { runPool, type PoolEnd } from './worker-pool.ts'
import { statOf } from '../files/stat-of.ts'
import { LOG_FILE } from '../job/own-files.ts'

export interface BatchSettings {
  /** Absolute path of the folder that receives one folder a work order. */
  outRoot: string
  options: PageOptions
  texts: Texts
  /** Most jobs at the same time. */
  workers: number
  /** Most a job's JavaScript heap may grow to, MiB; holds where jobs run in threads. */
  heapMib: number
  /** Most memory the process may take, bytes. */
  memoryBytes: number
  /** Make outputs that are up to date as well. */
  force: boolean
  /** Look for every change of a job that is due, not only for the first. */
  allChanges: boolean
  /** Aborted: begin nothing more, and give up what is not done soon. */
  stop: AbortSignal
  /** Called with each outcome as soon as it stands, in the order of finishing. */
  told: (outcome: JobOutcome) => void
}

/** How long jobs under way may go on after a stop, ms: most end in time, and the whole ends within ten seconds. */
const GRACE_MS = 5000
/** Jobs whose inputs are hashed at the same time: reading overlaps, and memory stays that of a few small files each. */
const CHECKED_AT_ONCE = 16

/**
 * Reports jobs: those whose output is up to date are only told of, the others run heaviest first. A failed job is one
 * failed outcome; the others go on.
 *
 * One job runs in this thread, where it is short enough for the thread to hear a signal soon. Several run in worker threads, even one at a time, so that a job that exhausts memory
 * fails alone.
 *
 * @returns  one outcome a job, in the order given
 */
export async function runBatch(jobs: readonly SurveyedJob[], settings: BatchSettings): Promise<JobOutcome[]> {
  const { outRoot, options, texts } = settings
  const ended = new Map<SurveyedJob, JobOutcome>()
  const end = (job: SurveyedJob, outcome: JobOutcome) => {
    ended.set(job, outcome)
    settings.told(outcome)
  }
  const made = madeForCall(options, texts)
  await clearLeftovers(outRoot, 'dead')

  const due = await findDue(
    jobs,
    {
      ...settings,
      made,
      replaces: options.replaces,
      history: options.history,
      reading: options.reading,
      publicKey: signerFor(options)?.publicKey,
      limits: withValues(loadLimits(), options.limits ?? {}),
      all: settings.allChanges,
    },
    end,
  )
  const call: CallSettings = { outRoot, options, made, texts }
  if (jobs.length === 1 && !isLong(jobs[0]!)) await runHere(due, { call, settings, end })
  else await runInThreads(due, { call, settings, end })

  if (due.length > 0) {
    await clearLeftovers(outRoot, 'own')
    pruneStore(join(outRoot, STORE_FOLDER))
  }
  return jobs.map((job) => ended.get(job)!)
}

/** Bytes of a test log, and of a whole job, from which computing it may keep a thread from anything else for seconds. */
const LONG_LOG_BYTES = 32 * 1024
const LONG_JOB_BYTES = 64 * 2 ** 20

const isLong = ({ folder, bytes }: SurveyedJob): boolean =>
  bytes > LONG_JOB_BYTES || (statOf(join(folder, LOG_FILE))?.size ?? 0) > LONG_LOG_BYTES

interface DueJob {
  job: SurveyedJob
  task: JobTask
}
type End = (job: SurveyedJob, outcome: JobOutcome) => void
interface Run {
  call: CallSettings
  settings: BatchSettings
  end: End
}

/** Ends the jobs that need no work, and returns the others with why they are due. */
async function findDue(
  jobs: readonly SurveyedJob[],
  wanted: Wanted &
    Pick<BatchSettings, 'force' | 'stop'> &
    Pick<PageOptions, 'replaces' | 'history' | 'reading'>,
  end: End,
): Promise<DueJob[]> {
  const due = new Map<SurveyedJob, readonly Why[]>()
  const turn = async (job: SurveyedJob): Promise<void> => {
    const { folder, workOrder, earlier } = job
    if (earlier !== undefined)
      return end(job, { folder, state: 'invalid', problems: [repeated(workOrder!, earlier)] })
    if (wanted.force) return void due.set(job, [{ code: 'forced', args: {} }])
    const standing = await standingOf(folder, workOrder, {
      ...wanted,
      made: withHistory(wanted, folder, madeForJob(wanted, workOrder)),
    })
    if (standing.state === 'due') due.set(job, standing.why)
    else
      end(job, {
        folder,
        ...standing,
        state: 'reported',
        upToDate: true,
        why: [],
        warnings: [],
        unjudged: [],
      })
  }
  const waiting = [...jobs]
  await Promise.all(
    Array.from({ length: CHECKED_AT_ONCE }, async () => {
      for (let job = waiting.shift(); job !== undefined; job = waiting.shift()) {
        if (wanted.stop.aborted) end(job, { folder: job.folder, state: 'skipped' })
        else await turn(job)
      }
    }),
  )
  return jobs.flatMap((job) => {
    const why = due.get(job)
    return why ? [{ job, task: { folder: job.folder, why } }] : []
  })
}

/** The same with the earlier outputs that bear on this job. Where job.yaml cannot be read the job is due, and says why. */
function withHistory(
  { history, reading }: Pick<PageOptions, 'history' | 'reading'>,
  folder: string,
  made: MadeWith,
): MadeWith {
  const asked = history && askedJob(resolve(folder), readingLimits(reading))
  return asked ? madeForHistory(made, history, asked) : made
}

/** What this job's report would be made with. Where there is nothing to replace it is due, and making it says so. */
function madeForJob(
  { made, replaces }: Pick<Wanted, 'made'> & Pick<PageOptions, 'replaces'>,
  workOrder: string | undefined,
): MadeWith {
  if (replaces === undefined || workOrder === undefined) return made
  try {
    return madeForReissue(made, replacedReport(replaces, workOrder).sha256)
  } catch (cause) {
    if (cause instanceof JobError) return { ...made, options: { ...made.options, replaces: '' } }
    throw cause
  }
}

const repeated = (workOrder: string, other: string): Problem =>
  problem('duplicate-work-order', { file: 'job.yaml' }, { workOrder, other })

/** In this thread, with nothing beside it to protect. */
async function runHere(due: readonly DueJob[], { call, settings, end }: Run): Promise<void> {
  for (const { job, task } of due) {
    const skipped: JobOutcome = { folder: job.folder, state: 'skipped' }
    if (settings.stop.aborted) {
      end(job, skipped)
      continue
    }
    end(job, await Promise.race([reportJob(task, call), afterGrace(settings.stop, skipped)]))
  }
}

/** Settles some time after the stop; never without one. */
const afterGrace = <T>(stop: AbortSignal, value: T): Promise<T> =>
  new Promise((settle) => {
    stop.addEventListener('abort', () => setTimeout(() => settle(value), GRACE_MS).unref(), { once: true })
  })

async function runInThreads(due: readonly DueJob[], { call, settings, end }: Run): Promise<void> {
  if (due.length === 0) return
  const jobOf = new Map(due.map(({ job, task }) => [task, job]))
  const pool = {
    script: new URL('./job-worker.js', import.meta.url),
    workerData: call,
    workers: Math.min(settings.workers, due.length),
    heapMib: settings.heapMib,
    memoryBytes: settings.memoryBytes,
    stop: settings.stop,
    graceMs: GRACE_MS,
  }
  await runPool<JobTask, JobOutcome>(
    due.map(({ job, task }) => ({ task, weight: job.bytes })),
    pool,
    (task, poolEnd) => end(jobOf.get(task)!, outcomeOf(task.folder, poolEnd, settings)),
  )
}

function outcomeOf(
  folder: string,
  end: PoolEnd<JobOutcome>,
  limits: Pick<BatchSettings, 'heapMib' | 'memoryBytes'>,
): JobOutcome {
  switch (end.how) {
    case 'done':
      return end.result
    case 'stopped':
      return { folder, state: 'skipped' }
    case 'out-of-memory':
      return { folder, state: 'invalid', problems: [outOfMemory(end.limit, limits)] }
    case 'crashed': {
      const short = shortOf(end.error)
      if (short !== undefined)
        return {
          folder,
          state: 'invalid',
          problems: [problem('system-short', { file: 'job.yaml' }, { why: short })],
        }
      return {
        folder,
        state: 'invalid',
        problems: [problem('internal-error', { file: 'job.yaml' }, { what: end.error.message })],
        ...(end.error.stack === undefined ? {} : { stack: end.error.stack }),
      }
    }
  }
}

/** What the system had none left of to open for a thread, or for the program in it: no fault of ours or the job's. */
const shortOf = ({ message }: Error): string | undefined =>
  /^Worker initialization failure: (E[A-Z]+)$/.exec(message)?.[1] ?? /^(E[MN]FILE): /.exec(message)?.[1]

const outOfMemory = (
  limit: 'heap' | 'process',
  { heapMib, memoryBytes }: Pick<BatchSettings, 'heapMib' | 'memoryBytes'>,
): Problem =>
  limit === 'heap'
    ? problem('out-of-memory', { file: 'job.yaml' }, { limit: `${heapMib} MiB` })
    : problem('memory-short', { file: 'job.yaml' }, { limit: `${Math.floor(memoryBytes / 2 ** 20)} MiB` })
