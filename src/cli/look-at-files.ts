import { statSync } from 'node:fs'
import { basename, extname, relative, resolve, sep } from 'node:path'
import { tellLine } from './print-line.ts'
import type { NewCapture } from '../files/new-folder.ts'
import type { ReadingLimits } from '../limits/reading-limits.ts'
import type { DraftedFile } from '../peek/drafted.ts'
import type { Peeked } from '../peek/peeked.ts'
import { JobError, problem, type Problem } from '../problems/problem.ts'
import type { Texts } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import { sampleRateOf } from '../units/sample-rate.ts'
import type { AskLine } from './talk.ts'
import { UsageError } from './usage-error.ts'

/** Files that become part of a job: what was seen in each, and what to copy where. */
export interface LookedAt {
  files: readonly DraftedFile[]
  /** Photos by their names in the job. */
  pictures: readonly string[]
  captures: readonly NewCapture[]
}

/** A file of the job: its name there, and where it is. */
interface There {
  file: string
  path: string
}

interface How {
  rateHz: number | undefined
  reading: ReadingLimits
  /** Undefined where nobody answers. */
  ask: AskLine | undefined
  /** Files the job names already. */
  there?: readonly There[]
  /** Folder of the job: what lies in it is not copied. */
  inFolder?: string
}

const MOST_TURNS = 3

const PHOTO = /^\.(?:jpe?g|png)$/i

/**
 * Looks at files and settles the rate of those that do not say theirs: one answer holds for all of them. Photos are told
 * by the ends of their names.
 *
 * @throws JobError with every file that is not there, cannot be read, or is in the job already
 */
export async function lookAtFiles(texts: Texts, paths: readonly string[], how: How): Promise<LookedAt> {
  const { inItsFolder } = await import('../peek/draft-job.ts')
  const { inZone, namedCaptures } = await import('../files/new-folder.ts')
  const copied = await namedCaptures(
    await filesOf(paths),
    how.there?.map(({ file }) => file),
  )
  const all = copied.map((c) => lyingIn(how.inFolder, c))
  const pictures = all
    .filter(({ path }) => PHOTO.test(extname(path)))
    .map((c) => (c.there ? c : { ...c, file: c.file.replace(/^captures\//, 'photos/') }))
  const named = all.filter(({ path }) => !PHOTO.test(extname(path)))
  await refuseThere(all, how.there ?? [])
  const looks = await lookAll(named, how)
  const silent = named.filter((_, i) => looks[i]!.clock === null)
  const rateHz =
    how.ask && silent.length > 0
      ? await askRate(
          texts,
          how.ask,
          silent.map(({ file }) => basename(file)),
        )
      : undefined
  const again = rateHz === undefined ? [] : await lookAll(silent, { ...how, rateHz })
  const seen = rolesShared(named.map((each, i) => again[silent.indexOf(each)] ?? looks[i]!))
  refuseUseless(texts, seen)
  const files = named.map((each, i): DraftedFile => {
    const peeked = seen[i]!
    const { taken: written } = peeked.preamble
    const file = {
      file: each.file,
      taken: written === undefined ? each.taken : inZone(new Date(written)),
      takenFrom: written === undefined ? ('file' as const) : ('preamble' as const),
      peeked,
    }
    return each.there ? file : inItsFolder(file)
  })
  return {
    files,
    pictures: pictures.map(({ file }) => file),
    captures: [...named.map((c, i) => ({ ...c, file: files[i]!.file })), ...pictures],
  }
}

/** The files named; of a folder those that lie in it. */
async function filesOf(paths: readonly string[]): Promise<string[]> {
  const { recordingsIn } = await import('../files/new-folder.ts')
  return paths.map((path) => resolve(path)).flatMap((path) => (isFolder(path) ? recordingsIn(path) : [path]))
}

export const isFolder = (path: string): boolean =>
  statSync(path, { throwIfNoEntry: false })?.isDirectory() === true

export const isFile = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isFile() === true

function lyingIn(folder: string | undefined, capture: NewCapture): NewCapture {
  const below = folder === undefined ? '..' : relative(folder, capture.path)
  return below.startsWith('..') ? capture : { ...capture, file: below.split(sep).join('/'), there: true }
}

/**
 * Files with the same columns were recorded the same way: where one of them, such as a short stretch of a session, does not
 * show what a column carries, the surest of the others tells.
 */
function rolesShared(looks: readonly Peeked[]): Peeked[] {
  const kind = ({ dialect }: Peeked): string => JSON.stringify([dialect.header, dialect.columns])
  return looks.map((look) => {
    const alike = looks.filter((other) => other.dialect.header !== undefined && kind(other) === kind(look))
    if (alike.length < 2) return look
    const columns = look.columns.map((column, i) => {
      const told = alike
        .map((other) => other.columns[i]!)
        .filter(({ role }) => role !== 'unknown')
        .sort((a, b) => b.sureness - a.sureness)[0]
      const isOpen = column.role === 'unknown' || (told !== undefined && told.role !== column.role)
      return told !== undefined &&
        isOpen &&
        told.sureness > column.sureness - (column.role === 'unknown' ? 1 : 0)
        ? { ...column, role: told.role, sureness: told.sureness, because: told.because }
        : column
    })
    return { ...look, columns }
  })
}

/** Refuses what no job can use, each for its one reason. @throws UsageError */
function refuseUseless(texts: Texts, looks: readonly Peeked[]): void {
  const without = looks.filter(({ clock }) => clock === null).map(({ file }) => file)
  if (without.length > 0)
    throw new UsageError(say(texts, 'new.refused.no-rate', { files: without.join(', ') }))
  const useless = looks
    .filter(({ columns }) => !columns.some(({ role }) => role === 'secondary' || role === 'speed'))
    .map(({ file }) => file)
  if (useless.length > 0)
    throw new UsageError(say(texts, 'new.refused.nothing', { files: useless.join(', ') }))
}

/** Refuses a file whose very bytes the job has under another name. */
async function refuseThere(files: readonly NewCapture[], there: readonly There[]): Promise<void> {
  const { digestFile } = await import('../files/digest-file.ts')
  const { statOf } = await import('../files/stat-of.ts')
  const problems: Problem[] = []
  for (const { path } of files) {
    const size = statOf(path)?.size
    for (const other of there.filter((each) => statOf(each.path)?.size === size))
      if ((await digestFile(path)).sha256 === (await digestFile(other.path)).sha256)
        problems.push(problem('same-contents', { file: path }, { path: basename(path), other: other.file }))
  }
  if (problems.length > 0) throw new JobError(problems)
}

/** What is in each capture. @throws JobError with all that cannot be read: nothing could be made of them */
async function lookAll(
  files: readonly NewCapture[],
  { rateHz, reading }: Pick<How, 'rateHz' | 'reading'>,
): Promise<Peeked[]> {
  const { peekFile } = await import('../peek/peek-file.ts')
  const problems: Problem[] = []
  const looks: Peeked[] = []
  for (const { path } of files)
    try {
      looks.push((await peekFile(path, { file: basename(path), sampleRateHz: rateHz }, reading)).peeked)
    } catch (cause) {
      if (!(cause instanceof JobError)) throw cause
      problems.push(...cause.problems.map((p) => ({ ...p, file: path })))
    }
  if (problems.length > 0) throw new JobError(problems)
  return looks
}

async function askRate(texts: Texts, ask: AskLine, files: readonly string[]): Promise<number | undefined> {
  for (let turn = 0; turn < MOST_TURNS; turn++) {
    const line = await ask(say(texts, 'new.ask.rate', { files: files.join(', ') }))
    const hz = line === '' ? undefined : sampleRateOf(line)
    if (line === '' || hz !== undefined) return hz
    tellLine(say(texts, 'new.refused.rate', { found: { words: line } }))
  }
  return undefined
}
