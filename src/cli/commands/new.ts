import { basename, join, resolve } from 'node:path'
import type { CommandModule } from 'yargs'
import type { ReadingLimits } from '../../limits/reading-limits.ts'
import { JobError } from '../../problems/problem.ts'
import { loadTexts } from '../../texts/load-texts.ts'
import type { Texts } from '../../texts/messages.ts'
import { say } from '../../texts/say.ts'
import type { Answers, DraftedFile } from '../../peek/drafted.ts'
import { rateGiven } from '../rate-given.ts'
import { LIMITS_OPTION, readingGiven } from '../read-limits.ts'
import { EXIT } from '../exit-codes.ts'
import { exitCodeOf, printProblems } from '../print-problems.ts'
import { Interrupted, talkOn } from '../talk.ts'

interface NewArgs {
  folder: string
  captures: string[]
  rate: number | undefined
  limits: string | undefined
}

/** `burnline new <folder> [captures...]`: makes a job folder, its job.yaml drafted from what the captures show. */
export const newCommand: CommandModule<object, NewArgs> = {
  command: 'new <folder> [captures..]',
  describe: 'Make a job folder and draft its job.yaml from captures.',
  builder: (y) =>
    y
      .positional('folder', {
        type: 'string',
        demandOption: true,
        describe: 'The folder to make; its own files are never replaced',
      })
      .positional('captures', {
        type: 'string',
        array: true,
        default: [],
        describe: 'Captures and traces to copy into it',
      })
      .option('rate', { type: 'number', describe: 'Samples a second, for captures without a time column' })
      .options(LIMITS_OPTION) as never,
  handler: async ({ folder, captures, rate, limits }) => {
    const sampleRateHz = rateGiven(rate)
    const reading = readingGiven(limits)
    const texts = loadTexts('en')
    try {
      await makeFolder(texts, { folder, captures, sampleRateHz, reading })
      const { checkJob } = await import('../../chain/check-job.ts')
      const problems = await checkJob(resolve(folder), { captures: false, reading })
      process.stdout.write(`${say(texts, 'new.made', { folder, count: problems.length })}\n`)
      printProblems(texts, folder, problems)
    } catch (cause) {
      if (cause instanceof Interrupted) {
        process.exitCode = EXIT.interrupted
        return
      }
      if (!(cause instanceof JobError)) throw cause
      printProblems(texts, folder, cause.problems)
      process.exitCode = exitCodeOf([{ folder, state: 'invalid', problems: cause.problems }])
    }
  },
}

interface Wanted {
  folder: string
  captures: readonly string[]
  sampleRateHz: number | undefined
  reading: ReadingLimits
}

async function makeFolder(texts: Texts, { folder, captures, ...how }: Wanted): Promise<void> {
  const { DRAFT_LOG, draftJob, guessEngine, inItsFolder } = await import('../../peek/draft-job.ts')
  const { namedCaptures, writeNewFolder } = await import('../../files/new-folder.ts')
  const named = await namedCaptures(captures.map((path) => resolve(path)))
  const files: DraftedFile[] = []
  for (const { path, file, taken } of named)
    files.push(inItsFolder({ file, taken, peeked: await look(texts, path, how) }))
  const answers = await answersFor(texts, (said) => guessEngine(files, said))
  const drafted = new Map([
    ['job.yaml', draftJob(files, answers, today())],
    ['test-log.csv', DRAFT_LOG],
  ])
  await writeNewFolder(resolve(folder), {
    texts: drafted,
    captures: named.map((c, i) => ({ ...c, file: files[i]!.file })),
  })
}

/** What is in a capture; one that cannot be read is copied all the same, and what is wrong with it is said. */
async function look(
  texts: Texts,
  path: string,
  { sampleRateHz, reading }: Pick<Wanted, 'sampleRateHz' | 'reading'>,
): Promise<DraftedFile['peeked']> {
  const { peekFile } = await import('../../peek/peek-file.ts')
  try {
    return (await peekFile(path, { file: basename(path), sampleRateHz }, reading)).peeked
  } catch (cause) {
    if (!(cause instanceof JobError)) throw cause
    printProblems(texts, join(path, '..'), cause.problems)
    return undefined
  }
}

async function answersFor(
  texts: Texts,
  guessed: (answers: Answers) => ReturnType<typeof import('../../peek/draft-job.ts').guessEngine>,
): Promise<Answers> {
  if (!process.stdin.isTTY || !process.stderr.isTTY) return {}
  const { askForJob } = await import('../ask-for-job.ts')
  return talkOn({ input: process.stdin, output: process.stderr, terminal: true }, (ask) =>
    askForJob(ask, { texts, guessed }),
  )
}

/** The day where this computer stands, ISO 8601. */
function today(): string {
  const now = new Date()
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()]
    .map((n) => String(n).padStart(2, '0'))
    .join('-')
}
