import { basename, join, resolve } from 'node:path'
import type { NewCapture } from '../files/new-folder.ts'
import type { ReadingLimits } from '../limits/reading-limits.ts'
import type { DraftedFile } from '../peek/drafted.ts'
import { JobError } from '../problems/problem.ts'
import type { Texts } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import { sampleRateOf } from '../units/sample-rate.ts'
import { printProblems } from './print-problems.ts'
import type { AskLine } from './talk.ts'

/** Files that become part of a job: what was seen in each, and what to copy where. */
export interface LookedAt {
  files: readonly DraftedFile[]
  captures: readonly NewCapture[]
}

interface How {
  rateHz: number | undefined
  reading: ReadingLimits
  /** Undefined where nobody answers. */
  ask: AskLine | undefined
  /** Files the job names already. */
  there?: readonly string[]
}

const MOST_TURNS = 3

/** Looks at files and settles the rate of those that do not say theirs: one answer holds for all of them. */
export async function lookAtFiles(texts: Texts, paths: readonly string[], how: How): Promise<LookedAt> {
  const { inItsFolder } = await import('../peek/draft-job.ts')
  const { inZone, namedCaptures } = await import('../files/new-folder.ts')
  const named = await namedCaptures(
    paths.map((path) => resolve(path)),
    how.there,
  )
  let looks = await Promise.all(named.map(({ path }) => look(texts, path, how)))
  const silent = named.filter((_, i) => looks[i] !== undefined && looks[i]!.clock === null)
  const rateHz =
    how.ask && silent.length > 0
      ? await askRate(
          texts,
          how.ask,
          silent.map(({ file }) => basename(file)),
        )
      : undefined
  if (rateHz !== undefined)
    looks = await Promise.all(
      named.map((each, i) => (silent.includes(each) ? look(texts, each.path, { ...how, rateHz }) : looks[i])),
    )
  const files = named.map(({ file, taken }, i): DraftedFile => {
    const written = looks[i]?.preamble.taken
    return inItsFolder({
      file,
      taken: written === undefined ? taken : inZone(new Date(written)),
      takenFrom: written === undefined ? 'file' : 'preamble',
      peeked: looks[i],
    })
  })
  return { files, captures: named.map((c, i) => ({ ...c, file: files[i]!.file })) }
}

/** What is in a capture; one that cannot be read is copied all the same, and what is wrong with it is said. */
async function look(
  texts: Texts,
  path: string,
  { rateHz, reading }: Pick<How, 'rateHz' | 'reading'>,
): Promise<DraftedFile['peeked']> {
  const { peekFile } = await import('../peek/peek-file.ts')
  try {
    return (await peekFile(path, { file: basename(path), sampleRateHz: rateHz }, reading)).peeked
  } catch (cause) {
    if (!(cause instanceof JobError)) throw cause
    printProblems(texts, join(path, '..'), cause.problems)
    return undefined
  }
}

async function askRate(texts: Texts, ask: AskLine, files: readonly string[]): Promise<number | undefined> {
  for (let turn = 0; turn < MOST_TURNS; turn++) {
    const line = await ask(say(texts, 'new.ask.rate', { files: files.join(', ') }))
    const hz = line === '' ? undefined : sampleRateOf(line)
    if (line === '' || hz !== undefined) return hz
    process.stderr.write(`${say(texts, 'new.refused.rate', { found: { words: line } })}\n`)
  }
  return undefined
}
