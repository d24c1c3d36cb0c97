import { relative, resolve } from 'node:path'
import type { CommandModule } from 'yargs'
import { LANGUAGES, loadTexts, type Language } from '../../texts/load-texts.ts'
import { exitCodeOf, printProblems } from '../print-problems.ts'
import { VERSION } from '../version.ts'

interface ReportArgs { folders: string[]; out: string; page: 'A4' | 'LETTER'; language: Language; captures: boolean }

/** `burnline report <job-folder>...`: one report a job; one line a job with its verdict and where the PDF is. */
export const reportCommand: CommandModule<object, ReportArgs> = {
  command: 'report <folders..>',
  describe: 'Report job folders: one folder of PDF, JSON and CSV each.',
  builder: (y) => y
    .positional('folders', { type: 'string', array: true, demandOption: true, describe: 'Job folders' })
    .option('out', { type: 'string', default: 'outputs', describe: 'Folder that receives one folder a work order' })
    .option('page', { choices: ['A4', 'LETTER'] as const, default: 'A4' as const, describe: 'Paper' })
    .option('language', { choices: LANGUAGES, default: 'en' as const, describe: 'Language of the report' })
    .option('captures', { type: 'boolean', default: false, describe: 'Embed the raw captures in the PDF' }) as never,
  handler: async ({ folders, out, page, language, captures }) => {
    const texts = loadTexts(language)
    const { runBatch } = await import('../../batch/run-batch.ts')
    const outcomes = await runBatch(folders, {
      outRoot: resolve(out), texts, options: { page, version: VERSION, embedCaptures: captures },
      told: (outcome) => {
        if (outcome.state === 'reported') {
          process.stdout.write(`${outcome.workOrder}  ${outcome.verdict}  ${relative(process.cwd(), outcome.output) || '.'}/report.pdf\n`)
          printProblems(texts, outcome.folder, outcome.warnings)
        } else {
          process.stdout.write(`${outcome.folder}  invalid\n`)
          printProblems(texts, outcome.folder, outcome.problems, outcome.cause)
        }
      },
    })
    process.exitCode = exitCodeOf(outcomes)
  },
}
