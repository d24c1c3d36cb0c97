import { printLine, tellLine } from '../print-line.ts'
import { existsSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { readRegularText } from '../../files/regular-file.ts'
import { basename, dirname, join, resolve } from 'node:path'
import type { CommandModule } from 'yargs'
import type { ReadingLimits } from '../../limits/reading-limits.ts'
import { JobError } from '../../problems/problem.ts'
import { LOG_HEAD } from '../../job/edit-log.ts'
import { withEntry } from '../../job/extend-job.ts'
import type { Stage } from '../../job/schema.ts'
import { readShopFile, type ShopFile } from '../../job/shop-file.ts'
import { TEMPLATES } from '../../texts/load-texts.ts'
import type { Texts } from '../../texts/messages.ts'
import { say } from '../../texts/say.ts'
import { shellWord } from '../shell-word.ts'
import type { Answers, DraftedFile } from '../../peek/drafted.ts'
import type { Draft } from '../../peek/draft-job.ts'
import { stageNamed } from '../../peek/guess-stage.ts'
import { instrumentOf, technicianOf } from '../ask-for-job.ts'
import { isFile, isFolder, lookAtFiles, type LookedAt } from '../look-at-files.ts'
import { rateGiven, RATE_OPTION } from '../rate-given.ts'
import { LIMITS_OPTION, readingGiven } from '../read-limits.ts'
import { EXIT } from '../exit-codes.ts'
import { exitCodeOf, printProblems } from '../print-problems.ts'
import { Interrupted, talkOn, type AskLine } from '../talk.ts'
import { smallMeant } from '../meant.ts'
import { lineTexts } from '../terminal.ts'
import { UsageError } from '../usage-error.ts'

interface NewArgs {
  folder: string
  captures: string[]
  rate: string | undefined
  'work-order': string | undefined
  vehicle: string | undefined
  engine: string | undefined
  complaint: string | undefined
  technician: string | undefined
  instrument: string | undefined
  stage: 'before' | 'after' | undefined
  shop: string | undefined
  ask: boolean | undefined
  limits: string | undefined
}

/** The shop's own file, where none is named: beside the job folders. */
const SHOP_FILE = 'shop.yaml'

/** `burnline new <folder> [captures...]`: makes a job folder that runs, from what the captures show and a few answers. */
export const newCommand: CommandModule<object, NewArgs> = {
  command: 'new <folder> [captures..]',
  describe: 'Make a job folder from captures, and ask what they do not show.',
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
        describe:
          'Captures, traces and photos to copy into it, or folders of them; default: those that lie in it',
      })
      .options(RATE_OPTION)
      .option('work-order', { type: 'string', describe: 'Work order; default: the name of the folder' })
      .option('vehicle', {
        type: 'string',
        describe: 'The vehicle in one line: 2009 Demo Carrier V6 98123 mi E10',
      })
      .option('engine', {
        type: 'string',
        describe: 'The engine in one line: 4 cyl, 1-3-4-2, distributor, E10',
      })
      .option('complaint', { type: 'string', describe: 'The complaint, in the customer’s words' })
      .option('technician', { type: 'string', describe: 'Your name, and certificate if any' })
      .option('instrument', {
        type: 'string',
        describe: 'Scope and pickup, and how far their kV may be off, in %',
      })
      .option('stage', {
        choices: ['before', 'after'],
        coerce: smallMeant,
        describe: 'Of all captures; default: by their names',
      })
      .option('shop', {
        type: 'string',
        describe: `The shop’s own file: read, or made; default: ${SHOP_FILE} beside the folder`,
      })
      .option('ask', {
        type: 'boolean',
        describe: 'Ask, though input or output is no terminal; --no-ask: never',
      })
      .options(LIMITS_OPTION)
      .example('$0 new KB-26-0417 before.csv after.csv', 'ask the rest')
      .example(
        '$0 new KB-26-0417 idle.csv --engine "4 cyl, 1-3-4-2, distributor, E10" --no-ask',
        'ask nothing',
      ) as never,
  handler: async (args) => {
    const { folder } = args
    const texts = lineTexts()
    try {
      const { draft, files } = await makeFolder(texts, args)
      const { checkJob } = await import('../../chain/check-job.ts')
      const { problems } = await checkJob(resolve(folder), {
        captures: false,
        reading: readingGiven(args.limits),
      })
      printLine(say(texts, 'new.made', { folder, count: files.length }))
      sayGranted(texts, { file: join(folder, 'job.yaml'), draft })
      const open = problems.filter((p) => p.severity === 'refuse')
      if (open.length > 0) {
        printLine(say(texts, 'new.open'))
        printProblems(texts, folder, open)
      }
      const name = shellWord(folder)
      const commands = `burnline check ${name}, burnline log ${name}, burnline report ${name}`
      printLine(say(texts, 'new.next', { commands }))
    } catch (cause) {
      failNew(texts, folder, cause)
    }
  },
}

/** A recording where the folder ought to be, and the folder behind it. @throws UsageError */
export function refuseTurned(command: string, folder: string, files: readonly string[]): void {
  const last = files.at(-1)
  if (last === undefined || !isFile(resolve(folder)) || isFile(resolve(last))) return
  const turned = [last, folder, ...files.slice(0, -1)].map(shellWord).join(' ')
  throw new UsageError(`the job folder comes first: burnline ${command} ${turned}`)
}

/** What ends a call that makes or extends a folder. */
export function failNew(texts: Texts, folder: string, cause: unknown): void {
  if (cause instanceof Interrupted) {
    process.exitCode = EXIT.interrupted
    return
  }
  if (!(cause instanceof JobError)) throw cause
  printProblems(texts, folder, cause.problems)
  process.exitCode = exitCodeOf([{ folder, state: 'invalid', problems: cause.problems }])
}

/** Everything taken for granted, once. */
export function sayGranted(
  texts: Texts,
  { file, draft }: { file: string; draft: Pick<Draft, 'granted'> },
): void {
  if (draft.granted.length === 0) return
  printLine(say(texts, 'new.granted', { file }))
  for (const { line, why } of draft.granted)
    printLine(`  ${say(texts, 'new.granted-line', { line: { words: line }, why })}`)
}

async function makeFolder(
  texts: Texts,
  args: NewArgs,
): Promise<{ draft: Draft; files: readonly DraftedFile[] }> {
  const { folder } = args
  refuseTurned('new', folder, args.captures)
  const reading: ReadingLimits = readingGiven(args.limits)
  const { draftJob, guessEngine } = await import('../../peek/draft-job.ts')
  const { stagesToAsk } = await import('../../peek/guess-stage.ts')
  const { isTrace } = await import('../../peek/draft-recording.ts')
  const { inZone, writeNewFolder } = await import('../../files/new-folder.ts')
  const tell = tellLine
  const shopPath = args.shop ?? join(dirname(resolve(folder)), SHOP_FILE)
  const shop = existsSync(shopPath) ? await readShopFile(shopPath) : undefined
  const known = await saidBy(args, { shop, texts, tell })
  const named = args.captures.length === 0 && isFolder(resolve(folder)) ? [folder] : args.captures
  const made = async (ask: AskLine | undefined) => {
    const looked = await lookAtFiles(texts, named, {
      rateHz: rateGiven(args.rate),
      reading,
      ask,
      inFolder: resolve(folder),
    })
    const staged = { ...known, ...stagesGiven(args.stage, looked.files) }
    const looksRepaired = (answers: Answers) => repairedBy(texts, { looked, answers, reading })
    if (!ask)
      return {
        looked,
        answers: staged.stages ? staged : { ...staged, looksRepaired: await looksRepaired(staged) },
      }
    const { askForJob } = await import('../ask-for-job.ts')
    const answers = await askForJob(ask, staged, {
      texts,
      folder: basename(resolve(folder)),
      guessed: (facts) => guessEngine(looked.files, facts),
      unclear: async (facts) => {
        const looks = await looksRepaired({ ...staged, facts })
        const captures = looked.files.filter((file) => !isTrace(file))
        return { files: stagesToAsk(captures, looks), looksRepaired: looks }
      },
      tell,
    })
    return { looked, answers }
  }
  const { looked, answers } = await askingIf(args.ask, made)
  const opened = looked.files.map((f) => f.taken.slice(0, 10)).sort()[0]
  const drafted = draftJob(texts, looked.files, {
    answers,
    about: {
      folder: basename(resolve(folder)),
      opened: { day: opened ?? inZone(new Date()).slice(0, 10), ofRecording: opened !== undefined },
      schema: 'job.schema.json',
    },
  })
  const draft = { ...drafted, text: withPhotos(drafted.text, looked.pictures) }
  await writeNewFolder(resolve(folder), {
    texts: new Map([
      ['job.yaml', draft.text],
      ['job.schema.json', readRegularText(fileURLToPath(new URL('job.schema.json', TEMPLATES)))],
      ['test-log.csv', LOG_HEAD],
    ]),
    captures: looked.captures,
  })
  if (shop === undefined && keepShop(shopPath, answers)) tell(say(texts, 'new.kept', { file: shopPath }))
  return { draft, files: looked.files }
}

/** What the lines show of stages that no name says: of captures as they would be drafted. */
async function repairedBy(
  texts: Texts,
  { looked, answers, reading }: { looked: LookedAt; answers: Answers; reading: ReadingLimits },
): Promise<ReadonlyMap<string, string>> {
  const { isTrace } = await import('../../peek/draft-recording.ts')
  const captures = looked.files.filter((file) => !isTrace(file))
  if (captures.length < 2 || captures.every(({ file }) => stageNamed(file) !== undefined)) return new Map()
  const { draftJob } = await import('../../peek/draft-job.ts')
  const { parse } = await import('yaml')
  const { jobSchema } = await import('../../job/schema.ts')
  const { stagesShown } = await import('../../chain/stages-shown.ts')
  const about = { folder: 'draft', opened: { day: '2000-01-01', ofRecording: false }, schema: '' }
  const drafted = jobSchema.safeParse(parse(draftJob(texts, captures, { answers, about }).text))
  if (!drafted.success) return new Map() // something is still to be said
  const files = new Map(
    captures.map(({ file }) => [file, looked.captures.find((c) => c.file === file)!.path] as const),
  )
  const shown = await stagesShown(drafted.data, { files, reading, texts })
  return new Map([...shown].filter(([file]) => stageNamed(file) === undefined))
}

/** A photo under `photos`, of the stage said or its name says. */
export function photoEntry(file: string, said?: Stage): string {
  const stage = said ?? stageNamed(file)
  return `- { file: ${JSON.stringify(file)}${stage ? `, stage: ${stage}` : ''} }`
}

const withPhotos = (text: string, files: readonly string[]): string =>
  files.reduce((before, file) => withEntry(before, 'photos', [photoEntry(file)]) ?? before, text)

/** Talks where somebody can answer, or where asked to. */
export async function askingIf<T>(
  asked: boolean | undefined,
  talk: (ask: AskLine | undefined) => Promise<T>,
): Promise<T> {
  const terminal = process.stdin.isTTY === true && process.stderr.isTTY === true
  if (!(asked ?? terminal)) return talk(undefined)
  return talkOn({ input: process.stdin, output: process.stderr, ...(terminal ? { terminal } : {}) }, talk)
}

const stagesGiven = (stage: NewArgs['stage'], files: LookedAt['files']): Pick<Answers, 'stages'> =>
  stage === undefined ? {} : { stages: new Map(files.map(({ file }) => [file, stage])) }

/** What the command line and the shop file say. @throws UsageError for a vehicle or engine that cannot be */
async function saidBy(
  args: NewArgs,
  { shop, texts, tell }: { shop: ShopFile | undefined; texts: Texts; tell: (line: string) => void },
): Promise<Answers> {
  const { NO_FACTS, readFacts, withFacts } = await import('../../peek/facts.ts')
  let facts = NO_FACTS
  for (const [line, free] of [
    [args.vehicle, true],
    [args.engine, false],
  ] as const) {
    if (line === undefined) continue
    const read = readFacts(line, { known: facts, free })
    if (read.refused.length > 0) throw new UsageError(read.refused.map((each) => say(texts, each)).join(' '))
    for (const each of read.facts.taken) tell(say(texts, each))
    facts = withFacts(facts, read.facts)
  }
  const technician = technicianOf(args.technician) ?? shop?.forNewJobs.technician
  const instrument = instrumentOf(args.instrument, { texts, tell }) ?? shop?.forNewJobs.instrument
  return {
    ...(shop?.shop.name === undefined ? {} : { shop: shop.shop.name }),
    ...(technician ? { technician } : {}),
    ...(instrument ? { instrument } : {}),
    ...(args['work-order'] === undefined ? {} : { workOrder: args['work-order'] }),
    ...(args.complaint === undefined ? {} : { complaint: args.complaint }),
    ...(facts === NO_FACTS ? {} : { facts }),
  }
}

/** Keeps what does not change from job to job, where somebody said it; never writes over a file. */
function keepShop(path: string, { shop, technician, instrument }: Answers): boolean {
  if (shop === undefined && technician === undefined) return false
  const lines = [
    'format: 1',
    ...(shop === undefined ? [] : [`name: ${JSON.stringify(shop)}`]),
    ...(technician ? [`technician: ${JSON.stringify(technician)}`] : []),
    ...(instrument && Object.keys(instrument).length > 0
      ? [`instrument: ${JSON.stringify(instrument)}`]
      : []),
    '',
  ]
  try {
    writeFileSync(path, lines.join('\n'), { flag: 'wx' })
    return true
  } catch {
    return false // it is asked again next time
  }
}
