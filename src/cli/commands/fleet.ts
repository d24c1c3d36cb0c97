import { printLine } from '../print-line.ts'
import { relative, resolve } from 'node:path'
import type { CommandModule } from 'yargs'
import type { JobOutcome } from '../../batch/job-outcome.ts'
import { JobError, problem, type Problem } from '../../problems/problem.ts'
import { LANGUAGES, loadTexts, type Language } from '../../texts/load-texts.ts'
import { say } from '../../texts/say.ts'
import { exitCodeOf, printProblems } from '../print-problems.ts'
import { languageMeant, paperMeant } from '../meant.ts'
import { printJson } from '../print-json.ts'
import { readPublicKey } from '../read-key.ts'
import { problemForMachines } from '../problem-for-machines.ts'
import { forLines } from '../terminal.ts'
import { VERSION } from '../version.ts'

interface FleetArgs {
  outputs: string[]
  out: string
  page: 'A4' | 'LETTER'
  language: Language
  key: string | undefined
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
      .option('key', {
        type: 'string',
        describe:
          'The shop’s public key: only what it signed counts as signed, and not what bears any signature',
      })
      .option('json', { type: 'boolean', default: false, describe: 'For machines' })
      .example('$0 fleet outputs --out fleet', 'every report below outputs/, one roll-up') as never,
  handler: async ({ outputs, out, page, language, key, json }) => {
    const texts = loadTexts(language)
    const lines = json ? texts : forLines(texts)
    const publicKey = key === undefined ? {} : { publicKey: readPublicKey(key) }
    const { runFleet } = await import('../../fleet-run/run-fleet.ts')
    try {
      const { jobs, states } = await runFleet(outputs, {
        out: resolve(out),
        page,
        version: VERSION,
        texts,
        ...publicKey,
      })
      const reported = states.get('reported') ?? 0
      if (json)
        return printJson({
          jobs,
          states: Object.fromEntries(states),
          output: relative(process.cwd(), resolve(out)) || '.',
        })
      printLine(
        `${say(lines, 'fleet.line', { jobs, reported, others: jobs - reported })}  ${relative(process.cwd(), resolve(out)) || '.'}/fleet.pdf`,
      )
    } catch (cause) {
      const problems = cause instanceof JobError ? cause.problems : [notWritten(out, cause)]
      if (json) printJson({ problems: problems.map((p) => problemForMachines(lines, p)) })
      else printProblems(lines, '.', problems)
      process.exitCode = exitCodeOf([{ folder: out, state: 'invalid', problems } satisfies JobOutcome])
    }
  },
}

/** Whatever the system refused while the roll-up was sorted and written in its folder. @throws any other fault */
function notWritten(out: string, cause: unknown): Problem {
  const { code, syscall } = cause as NodeJS.ErrnoException
  if (code === undefined || syscall === undefined) throw cause
  return problem('cannot-write', { file: out }, { path: out, why: code })
}
