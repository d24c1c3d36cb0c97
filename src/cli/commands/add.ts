import { printLine } from '../print-line.ts'
import { readRegularText } from '../../files/regular-file.ts'
import { join, resolve } from 'node:path'
import type { CommandModule } from 'yargs'
import { withEntry, type JobList } from '../../job/extend-job.ts'
import { inspectJob, type Inspection } from '../../job/inspect-job.ts'
import { JOB_FILE } from '../../job/own-files.ts'
import type { Stage } from '../../job/schema.ts'
import { readYaml } from '../../job/yaml-document.ts'
import { valueAt } from '../../job/schema-problems.ts'
import { JobError, problem } from '../../problems/problem.ts'
import { sentence, type Texts } from '../../texts/messages.ts'
import { say } from '../../texts/say.ts'
import type { DraftedFile, DraftLine } from '../../peek/drafted.ts'
import type { LookedAt } from '../look-at-files.ts'
import { rateGiven, RATE_OPTION } from '../rate-given.ts'
import { LIMITS_OPTION, readingGiven } from '../read-limits.ts'
import { shellWord } from '../shell-word.ts'
import { smallMeant } from '../meant.ts'
import { lineTexts } from '../terminal.ts'
import { askingIf, failNew, photoEntry, refuseTurned, sayGranted } from './new.ts'

interface AddArgs {
  folder: string
  files: string[]
  rate: string | undefined
  stage: Stage | undefined
  ask: boolean | undefined
  limits: string | undefined
}

/** `burnline add <folder> <files...>`: copies further captures, traces and photos into a job and names them in job.yaml. */
export const addCommand: CommandModule<object, AddArgs> = {
  command: 'add <folder> <files..>',
  describe: 'Add captures, traces or photos to a job folder.',
  builder: (y) =>
    y
      .positional('folder', { type: 'string', demandOption: true, describe: 'A job folder' })
      .positional('files', {
        type: 'string',
        array: true,
        demandOption: true,
        describe: 'Captures and traces (CSV), photos (JPEG, PNG)',
      })
      .options(RATE_OPTION)
      .option('stage', {
        choices: ['before', 'after'],
        coerce: smallMeant,
        describe: 'Of the files; default: by their names, else by the repair in the log',
      })
      .option('ask', {
        type: 'boolean',
        describe: 'Ask, though input or output is no terminal; --no-ask: never',
      })
      .options(LIMITS_OPTION)
      .example('$0 add KB-26-0417 idle-after.csv', 'the capture after the repair')
      .example('$0 add KB-26-0417 joint.jpg --stage before', 'a photo') as never,
  handler: async (args) => {
    const texts = lineTexts()
    try {
      refuseTurned('add', args.folder, args.files)
      const reading = readingGiven(args.limits)
      const job = await inspectJob(resolve(args.folder), reading)
      if (job.job === undefined) throw new JobError(job.problems.filter((p) => p.severity === 'refuse'))
      const { lookAtFiles } = await import('../look-at-files.ts')
      const looked = await askingIf(args.ask, (ask) =>
        lookAtFiles(texts, args.files, {
          rateHz: rateGiven(args.rate),
          reading,
          ask,
          there: [...job.files].map(([file, path]) => ({ file, path })),
        }),
      )
      const { addFiles } = await import('../../files/new-folder.ts')
      const draft = await extended(texts, job, { looked, stage: args.stage })
      await addFiles(job.folder, { text: draft.text, captures: looked.captures })
      const names = looked.captures.map((c) => c.file)
      printLine(say(texts, 'new.added', { folder: args.folder, files: names.join(', ') }))
      sayGranted(texts, { file: join(args.folder, JOB_FILE), draft })
      const name = shellWord(args.folder)
      printLine(say(texts, 'new.next', { commands: `burnline report ${name}` }))
    } catch (cause) {
      failNew(texts, args.folder, cause)
    }
  },
}

interface Adding {
  looked: LookedAt
  stage: Stage | undefined
}

/** job.yaml with the new entries. @throws JobError where it is written so that nothing can be added line by line */
async function extended(texts: Texts, { folder, job, log }: Inspection, { looked, stage }: Adding) {
  const { draftRecording, isTrace } = await import('../../peek/draft-recording.ts')
  const { guessEngine, written } = await import('../../peek/draft-job.ts')
  let text = readRegularText(join(folder, JOB_FILE))
  const granted: { line: string; why: ReturnType<typeof sentence> }[] = []
  const engine = guessEngine(looked.files, {
    taken: [],
    cylinders: job!.engine.cylinders,
    firingOrder: job!.engine.firing_order,
    ignition: job!.engine.ignition,
  })
  const repairedAt = log.filter(({ cells }) => cells['step']?.trim() === 'repair').at(-1)?.cells['at']
  const put = (list: JobList, lines: readonly DraftLine[]): void => {
    const draft = written(texts, lines)
    const next = withEntry(text, list, draft.text.trimEnd().split('\n'))
    if (next === undefined)
      throw new JobError([problem('list-in-one-line', { file: JOB_FILE }, { key: list })])
    text = next
    granted.push(...draft.granted)
  }
  for (const file of looked.files) {
    const stages = stage === undefined ? undefined : new Map([[file.file, stage]])
    const lines = likeBefore(draftRecording(file, { engine, stages, repairedAt }), file, text)
    put(
      isTrace(file) ? 'traces' : 'captures',
      lines.map((line) => ({ ...line, text: line.text.slice(2) })),
    )
  }
  for (const file of looked.pictures) put('photos', [{ text: photoEntry(file, stage) }])
  return { text, granted }
}

/** A capture with the columns of one the job has already is recorded the same way: what the job says of those holds. */
function likeBefore(
  lines: readonly DraftLine[],
  { peeked }: DraftedFile,
  text: string,
): readonly DraftLine[] {
  const names = peeked?.dialect.header
  const data = readYaml(JOB_FILE, text).data
  const captures = valueAt(data, ['captures'])
  const like = (Array.isArray(captures) ? (captures as unknown[]) : []).find((capture) => {
    const channels = valueAt(capture, ['channels'])
    const columns = [
      ...(Array.isArray(channels) ? (channels as unknown[]).map((c) => valueAt(c, ['column'])) : []),
      valueAt(capture, ['time', 'column']) ?? names?.[0],
    ]
    return names !== undefined && columns.every((c) => typeof c === 'string' && names.includes(c))
  })
  const at = lines.findIndex(({ text: line }) => line.trim() === 'channels:')
  if (like === undefined || at < 0) return lines
  const time = valueAt(like, ['time', 'column']) === undefined ? undefined : valueAt(like, ['time'])
  const kept = lines
    .slice(0, at)
    .filter(({ text: line }) => time === undefined || !line.trim().startsWith('time:'))
  return [
    ...kept,
    ...(time === undefined ? [] : [{ text: `    time: ${JSON.stringify(time)}` }]),
    {
      text: `    channels: ${JSON.stringify(valueAt(like, ['channels']))}`,
      why: sentence('new.why.as-before', { file: String(valueAt(like, ['file'])) }),
    },
  ]
}
