import { relative, resolve } from 'node:path'
import type { CommandModule } from 'yargs'
import type { JobOutcome } from '../../batch/job-outcome.ts'
import { JobError } from '../../problems/problem.ts'
import { LANGUAGES, loadTexts, type Language } from '../../texts/load-texts.ts'
import { say } from '../../texts/say.ts'
import { exitCodeOf, printProblems } from '../print-problems.ts'
import { languageMeant, paperMeant } from '../meant.ts'
import { printJson } from '../print-json.ts'
import { problemForMachines } from '../problem-for-machines.ts'
import { forLines } from '../terminal.ts'
import { VERSION } from '../version.ts'

interface FleetArgs {
  outputs: string[]
  out: string
  page: 'A4' | 'LETTER'
  language: Language
  json: boolean
}

/** `burnline fleet <outputs...> --out <folder>`: one roll-up over many jobs and years. */
export const fleetCommand: CommandModule<object, FleetArgs> = {
  command: 'fleet <outputs..>',
  describe: 'Roll many reports up: fleet.csv with a row a job, fleet.json, and a printable report.',
  builder: (y) =>
    y
      .positional('outputs', {
        type: 'string',
        array: true,
        demandOption: true,
        describe: 'Output folders, folders of them, or what `report --json` printed',
      })
      .option('out', { type: 'string', default: 'fleet', describe: 'Folder of the roll-up' })
      .option('page', {
        choices: ['A4', 'LETTER'] as const,
        default: 'A4' as const,
        describe: 'Paper',
        coerce: paperMeant,
      })
      .option('language', {
        choices: LANGUAGES,
        default: 'en' as const,
        describe: 'Language of the report',
        coerce: languageMeant,
      })
      .option('json', { type: 'boolean', default: false, describe: 'For machines' })
      .example('$0 fleet outputs --out fleet', 'every report below outputs/, one roll-up') as never,
  handler: async ({ outputs, out, page, language, json }) => {
    const texts = loadTexts(language)
    const lines = json ? texts : forLines(texts)
    const { runFleet } = await import('../../fleet-run/run-fleet.ts')
    try {
      const { jobs, states } = await runFleet(outputs, { out: resolve(out), page, version: VERSION, texts })
      const reported = states.get('reported') ?? 0
      if (json)
        return printJson({
          jobs,
          states: Object.fromEntries(states),
          output: relative(process.cwd(), resolve(out)) || '.',
        })
      process.stdout.write(
        `${say(lines, 'fleet.line', { jobs, reported, others: jobs - reported })}  ${relative(process.cwd(), resolve(out)) || '.'}/fleet.pdf\n`,
      )
    } catch (cause) {
      if (!(cause instanceof JobError)) throw cause
      if (json) printJson({ problems: cause.problems.map((p) => problemForMachines(lines, p)) })
      else printProblems(lines, '.', cause.problems)
      process.exitCode = exitCodeOf([
        { folder: out, state: 'invalid', problems: cause.problems } satisfies JobOutcome,
      ])
    }
  },
}
