import { basename, relative, resolve } from 'node:path'
import type { CommandModule } from 'yargs'
import { JobError } from '../../problems/problem.ts'
import { printLine } from '../print-line.ts'
import { exitCodeOf, printProblems } from '../print-problems.ts'
import { printJson } from '../print-json.ts'
import { problemForMachines } from '../problem-for-machines.ts'
import { rateGiven, RATE_OPTION } from '../rate-given.ts'
import { LIMITS_OPTION, readingGiven } from '../read-limits.ts'
import { isFolder } from '../look-at-files.ts'
import { shellWord } from '../shell-word.ts'
import { lineTexts, shownOn } from '../terminal.ts'
import { UsageError } from '../usage-error.ts'

interface PeekArgs {
  file: string
  rate: string | undefined
  limits: string | undefined
  json: boolean
}

/** `burnline peek <file>`: what is in a capture, without a job. */
export const peekCommand: CommandModule<object, PeekArgs> = {
  command: 'peek <file>',
  describe: 'Show what is in a capture: dialect, columns, rate, events.',
  builder: (y) =>
    y
      .positional('file', { type: 'string', demandOption: true, describe: 'A capture or trace, CSV or gzip' })
      .options(RATE_OPTION)
      .options(LIMITS_OPTION)
      .option('json', { type: 'boolean', default: false, describe: 'For machines' })
      .example('$0 peek before.csv', 'what is in an export, and what will be made of it')
      .example('$0 peek raw.csv --rate 500k', 'of a file without a time') as never,
  handler: async ({ file, rate, limits, json }) => {
    if (isFolder(resolve(file))) {
      const { recordingsIn } = await import('../../files/new-folder.ts')
      const found = recordingsIn(resolve(file)).map((path) => relative(process.cwd(), path))
      const such = found[0] === undefined ? '' : `: burnline peek ${shellWord(found[0])}`
      throw new UsageError(`${file} is a folder; peek takes one file${such}`)
    }
    const sampleRateHz = rateGiven(rate)
    const reading = readingGiven(limits)
    const texts = lineTexts()
    const { peekFile } = await import('../../peek/peek-file.ts')
    const { namedCaptures } = await import('../../files/new-folder.ts')
    const { sayPeek } = await import('../../peek/say-peek.ts')
    try {
      await namedCaptures([resolve(file)])
      const look = await peekFile(resolve(file), { file: basename(file), sampleRateHz }, reading)
      if (json)
        printJson({ ...look.peeked, problems: look.peeked.problems.map((p) => problemForMachines(texts, p)) })
      else sayPeek(texts, look, shownOn(process.stdout, process.env)).forEach(printLine)
    } catch (cause) {
      if (!(cause instanceof JobError)) throw cause
      if (json)
        printJson({ file: basename(file), problems: cause.problems.map((p) => problemForMachines(texts, p)) })
      else printProblems(texts, '.', cause.problems)
      process.exitCode = exitCodeOf([{ folder: file, state: 'invalid', problems: cause.problems }])
    }
  },
}
