import { resolve } from 'node:path'
import type { CommandModule } from 'yargs'
import { loadTexts } from '../../texts/load-texts.ts'
import type { JobOutcome } from '../../batch/job-outcome.ts'
import { JobError } from '../../problems/problem.ts'
import { exitCodeOf, printProblems } from '../print-problems.ts'

/** `burnline check <job-folder>...`: reads a job folder without decoding its captures and says what is wrong or missing. */
export const checkCommand: CommandModule<object, { folders: string[] }> = {
  command: 'check <folders..>',
  describe: 'Check job folders without reporting them.',
  builder: (y) => y.positional('folders', { type: 'string', array: true, demandOption: true, describe: 'Job folders' }) as never,
  handler: async ({ folders }) => {
    const texts = loadTexts('en')
    const { readJob } = await import('../../job/read-job.ts')
    const failed: JobOutcome[] = []
    for (const folder of folders) {
      try {
        const read = await readJob(resolve(folder))
        process.stdout.write(`${folder}  in order\n`)
        printProblems(texts, folder, read.warnings)
      } catch (cause) {
        if (!(cause instanceof JobError)) throw cause
        process.stdout.write(`${folder}  invalid\n`)
        printProblems(texts, folder, cause.problems)
        failed.push({ folder, state: 'invalid', problems: cause.problems })
      }
    }
    process.exitCode = exitCodeOf(failed)
  },
}
