import { basename, join, resolve } from 'node:path'
import { JobError, problem, type Problem } from '../problems/problem.ts'
import type { Texts } from '../texts/messages.ts'
import { runJob, type JobOptions } from './run-job.ts'
import { writeWhole } from './write-whole.ts'

/** How one folder of a call ended. */
export type JobOutcome =
  | { folder: string; state: 'reported'; workOrder: string; verdict: string; output: string; warnings: readonly Problem[] }
  | { folder: string; state: 'invalid'; problems: readonly Problem[]; cause?: unknown }

/**
 * Reports each folder in turn. A failed job is one failed outcome: the others go on.
 * This is the only place where a job's failure is caught; an error without a code becomes `internal-error`.
 *
 * @param folders  job folders as the caller named them
 * @param outRoot  folder that receives one folder a work order
 * @param told     called with each outcome as soon as it stands
 */
export async function runBatch(
  folders: readonly string[],
  { outRoot, options, texts, told }: { outRoot: string; options: JobOptions; texts: Texts; told: (outcome: JobOutcome) => void },
): Promise<JobOutcome[]> {
  const outcomes: JobOutcome[] = []
  const taken = new Map<string, string>()
  for (const folder of folders) {
    const outcome = await oneJob(folder, { outRoot, options, texts, taken })
    outcomes.push(outcome)
    told(outcome)
  }
  return outcomes
}

async function oneJob(
  folder: string, given: { outRoot: string; options: JobOptions; texts: Texts; taken: Map<string, string> },
): Promise<JobOutcome> {
  try {
    const { files, result, warnings } = await runJob(resolve(folder), given.options, given.texts)
    const workOrder = result.job.work_order
    const other = given.taken.get(workOrder)
    if (other !== undefined) {
      throw new JobError([problem('duplicate-work-order', { file: 'job.yaml' }, { workOrder, other })])
    }
    given.taken.set(workOrder, folder)
    const output = join(given.outRoot, workOrder)
    await writeWhole(output, files)
    return { folder, state: 'reported', workOrder, verdict: headline(result), output, warnings }
  } catch (cause) {
    if (cause instanceof JobError) return { folder, state: 'invalid', problems: cause.problems, cause: cause.cause }
    const what = cause instanceof Error ? cause.message : String(cause)
    return { folder, state: 'invalid', problems: [problem('internal-error', { file: basename(folder) }, { what })], cause }
  }
}

/** The job's verdict in a few words for its line: the pattern before, and the repair check. */
function headline(result: Awaited<ReturnType<typeof runJob>>['result']): string {
  const stage = result.engine.before ? 'before' : 'after'
  const pattern = result.engine[stage]?.pattern ?? 'none'
  const verdicts = [...new Set(result.cylinders
    .filter((c) => c.stage === stage && result.engine[stage]?.cylinders.includes(c.cylinder) && c.verdict !== 'not judged')
    .map((c) => c.verdict))]
  const unjudged = result.cylinders.filter((c) => c.stage === stage && c.verdict === 'not judged').length
  const odd = verdicts.length ? `${verdicts.join(', ')} (${pattern})` : unjudged === result.cylinders.length ? 'not judged' : 'level'
  return `${odd}; ${result.repair.verdict}`
}
