import { resolve } from 'node:path'
import { visible } from '../../problems/control-characters.ts'
import type { CommandModule } from 'yargs'
import type { JobOutcome } from '../../batch/job-outcome.ts'
import type { ReadingLimits } from '../../limits/reading-limits.ts'
import { JobError, type Problem } from '../../problems/problem.ts'
import { say } from '../../texts/say.ts'
import { printJson } from '../print-json.ts'
import { exitCodeOf, printProblems } from '../print-problems.ts'
import { problemForMachines } from '../problem-for-machines.ts'
import { lineTexts } from '../terminal.ts'
import { LIMITS_OPTION, readingGiven } from '../read-limits.ts'

interface CheckArgs {
  folders: string[]
  captures: boolean | undefined
  limits: string | undefined
  json: boolean
}
interface Checked {
  folder: string
  inOrder: boolean
  /** Whether its captures and traces were read. */
  captures: boolean
  problems: readonly Problem[]
}

/** `burnline check <job-folder>...`: says everything that is wrong or missing in job folders, without reporting them. */
export const checkCommand: CommandModule<object, CheckArgs> = {
  command: 'check <folders..>',
  describe: 'Say what is wrong or missing in job folders.',
  builder: (y) =>
    y
      .positional('folders', {
        type: 'string',
        array: true,
        demandOption: true,
        describe: 'Job folders, or folders of them',
      })
      .option('captures', {
        type: 'boolean',
        describe:
          'Read the captures and traces as well, however long they are; --no-captures: never. Left out: where that is quick',
      })
      .options(LIMITS_OPTION)
      .option('json', { type: 'boolean', default: false, describe: 'For machines' })
      .example('$0 check KB-26-0417', 'what report would refuse or regret')
      .example('$0 check inputs --captures', 'every job of a folder, long captures too') as never,
  handler: async ({ folders, captures, limits, json }) => {
    const reading = readingGiven(limits)
    const texts = lineTexts()
    const checked: Checked[] = []
    const { jobFolders } = await import('../../batch/list-jobs.ts')
    for (const folder of jobFolders(folders)) {
      const one = await check(folder, { captures, reading })
      checked.push(one)
      if (json) continue
      process.stdout.write(`${visible(folder)}  ${one.inOrder ? 'in order' : 'invalid'}\n`)
      printProblems(texts, folder, one.problems)
      if (!one.captures && one.inOrder && captures === undefined)
        process.stderr.write(`  ${say(texts, 'batch.captures-not-read')}\n`)
    }
    if (json)
      printJson(
        checked.map((one) => ({ ...one, problems: one.problems.map((p) => problemForMachines(texts, p)) })),
      )
    const invalid = checked.filter((one) => !one.inOrder)
    process.exitCode = exitCodeOf(
      invalid.map(({ folder, problems }): JobOutcome => ({ folder, state: 'invalid', problems })),
    )
  },
}

async function check(
  folder: string,
  { captures, reading }: { captures: boolean | undefined; reading: ReadingLimits },
): Promise<Checked> {
  const { checkJob } = await import('../../chain/check-job.ts')
  try {
    const { problems, captures: read } = await checkJob(resolve(folder), {
      captures: captures ?? 'where quick',
      reading,
    })
    return { folder, inOrder: !problems.some((p) => p.severity === 'refuse'), captures: read, problems }
  } catch (cause) {
    if (!(cause instanceof JobError)) throw cause
    return { folder, inOrder: false, captures: false, problems: cause.problems }
  }
}
