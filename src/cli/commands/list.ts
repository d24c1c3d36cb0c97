import { jsonText } from '../print-json.ts'
import { visible } from '../../problems/control-characters.ts'
import type { CommandModule } from 'yargs'
import type { z } from 'zod'
import type { JobOutcome } from '../../batch/job-outcome.ts'
import { JobError } from '../../problems/problem.ts'
import { exitCodeOf, printProblems } from '../print-problems.ts'
import { LIMITS_OPTION, readingGiven } from '../read-limits.ts'
import { lineTexts } from '../terminal.ts'
import type { listedSchema } from '../read-list.ts'

interface ListArgs {
  folders: string[]
  limits: string | undefined
  json: boolean
}

/** `burnline list [folders]`: the jobs with size, work order and digest of their inputs: a snapshot to split work by. */
export const listCommand: CommandModule<object, ListArgs> = {
  command: 'list [folders..]',
  describe:
    'List jobs with work order, size and digest; a folder without job.yaml stands for the jobs in it.',
  builder: (y) =>
    y
      .positional('folders', {
        type: 'string',
        array: true,
        default: ['inputs'],
        describe: 'Job folders, or folders of them',
      })
      .options(LIMITS_OPTION)
      .option('json', { type: 'boolean', default: false, describe: 'One JSON object a line and job' })
      .example(
        '$0 list inputs --json > jobs.jsonl',
        'then on each machine: $0 report --list jobs.jsonl --part 1/4',
      ) as never,
  handler: async ({ folders, limits, json }) => {
    const reading = readingGiven(limits)
    const { jobFolders, listJob } = await import('../../batch/list-jobs.ts')
    const failed: JobOutcome[] = []
    for (const folder of jobFolders(folders)) {
      try {
        const { workOrder, bytes, sha256 } = await listJob(folder, reading)
        const record: z.infer<typeof listedSchema> = { folder, work_order: workOrder ?? null, bytes, sha256 }
        process.stdout.write(
          json
            ? `${jsonText(record)}\n`
            : `${visible(workOrder ?? '-')}  ${bytes}  ${sha256}  ${visible(folder)}\n`,
        )
      } catch (cause) {
        if (!(cause instanceof JobError)) throw cause
        printProblems(lineTexts(), folder, cause.problems)
        failed.push({ folder, state: 'invalid', problems: cause.problems })
      }
    }
    process.exitCode = exitCodeOf(failed)
  },
}
