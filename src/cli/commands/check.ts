import { resolve } from 'node:path'
import type { CommandModule } from 'yargs'
import type { JobOutcome } from '../../batch/job-outcome.ts'
import { JobError, type Problem } from '../../problems/problem.ts'
import { loadTexts } from '../../texts/load-texts.ts'
import { printJson } from '../print-json.ts'
import { exitCodeOf, printProblems } from '../print-problems.ts'
import { problemForMachines } from '../problem-for-machines.ts'

interface CheckArgs { folders: string[]; captures: boolean; json: boolean }
interface Checked { folder: string; inOrder: boolean; problems: readonly Problem[] }

/** `burnline check <job-folder>...`: says everything that is wrong or missing in job folders, without reporting them. */
export const checkCommand: CommandModule<object, CheckArgs> = {
  command: 'check <folders..>',
  describe: 'Say what is wrong or missing in job folders.',
  builder: (y) => y
    .positional('folders', { type: 'string', array: true, demandOption: true, describe: 'Job folders' })
    .option('captures', { type: 'boolean', default: false, describe: 'Read the captures and traces as well' })
    .option('json', { type: 'boolean', default: false, describe: 'For machines' }) as never,
  handler: async ({ folders, captures, json }) => {
    const texts = loadTexts('en')
    const checked: Checked[] = []
    for (const folder of folders) {
      const one = await check(folder, captures)
      checked.push(one)
      if (json) continue
      process.stdout.write(`${folder}  ${one.inOrder ? 'in order' : 'invalid'}\n`)
      printProblems(texts, folder, one.problems)
    }
    if (json) printJson(checked.map((one) => ({ ...one, problems: one.problems.map((p) => problemForMachines(texts, p)) })))
    const invalid = checked.filter((one) => !one.inOrder)
    process.exitCode = exitCodeOf(invalid.map(({ folder, problems }): JobOutcome => ({ folder, state: 'invalid', problems })))
  },
}

async function check(folder: string, captures: boolean): Promise<Checked> {
  const { checkJob } = await import('../../batch/check-job.ts')
  try {
    const problems = await checkJob(resolve(folder), { captures })
    return { folder, inOrder: !problems.some((p) => p.severity === 'refuse'), problems }
  } catch (cause) {
    if (!(cause instanceof JobError)) throw cause
    return { folder, inOrder: false, problems: cause.problems }
  }
}
