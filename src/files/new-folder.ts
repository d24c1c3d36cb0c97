import { constants, readdirSync, statSync } from 'node:fs'
import { copyFile, lstat, realpath, rename, rm, stat, writeFile } from 'node:fs/promises'
import { basename, dirname, join, sep } from 'node:path'
import { near } from '../problems/nearest.ts'
import { JobError, problem, type Problem } from '../problems/problem.ts'
import { makeFolder } from './make-folder.ts'

/** A capture to copy: where it is, what it is called in the job folder, its own date (ISO 8601, in the zone of this machine). */
export interface NewCapture {
  path: string
  file: string
  taken: string
  /** It lies in the job folder already and stays where it is. */
  there?: boolean
}

/** Characters a job may not name a file with. */
const REFUSED = /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff\\/:*?"<>|]/g

/**
 * What each capture will be called; two of one name are told apart by a number.
 * @throws JobError `missing-file`, `unreadable-file` with every capture that cannot be copied
 */
export async function namedCaptures(
  paths: readonly string[],
  /** Names that are taken in the folder already. */
  there: readonly string[] = [],
): Promise<NewCapture[]> {
  const taken = new Set(there.map((file) => basename(file).toLowerCase()))
  const problems: Problem[] = []
  const named: NewCapture[] = []
  for (const path of paths) {
    const found = await stat(path).catch((cause: NodeJS.ErrnoException) => cause)
    if (found instanceof Error) {
      const missing = found.code === 'ENOENT' || found.code === 'ENOTDIR'
      problems.push(
        missing
          ? problem('no-such-file', { file: path }, { path, nearest: nearestBeside(path) })
          : problem('unreadable-file', { file: path }, { path, why: found.code ?? 'phrase.unknown' }),
      )
    } else if (!found.isFile())
      problems.push(problem('unreadable-file', { file: path }, { path, why: 'phrase.not-a-regular-file' }))
    else
      named.push({
        path,
        file: `captures/${freeName(basename(path).replace(REFUSED, '-'), taken)}`,
        taken: inZone(found.mtime),
      })
  }
  if (problems.length > 0) throw new JobError(problems)
  return named
}

/** What a recorder or a camera makes, by the end of its name. */
const RECORDED = /\.(?:csv|txt|tsv|tab|asc|dat|jpe?g|png)(?:\.gz)?$/i
/** Files a job folder has beside those, and logs of tests. */
const NO_RECORDING = /^(?:test-log\.csv|read ?me.*)$/i
/** Folders of a job folder that hold recordings and photos. */
const OF_JOB = ['captures', 'traces', 'photos']

/** Recordings and photos that lie in a folder, or in those of a job in it; absolute paths in the order of their names. */
export function recordingsIn(folder: string): string[] {
  return ['', ...OF_JOB].flatMap((below) => {
    try {
      return readdirSync(join(folder, below))
        .filter((name) => RECORDED.test(name) && !NO_RECORDING.test(name) && !name.startsWith('.'))
        .sort(inOrderOfNames)
        .map((name) => join(folder, below, name))
        .filter((path) => statSync(path).isFile())
    } catch {
      return [] // no such folder: nothing in it
    }
  })
}

/** `shot_2` before `shot_10`, the same on every machine. */
function inOrderOfNames(a: string, b: string): number {
  const padded = (name: string): string => name.replace(/\d+/g, (digits) => digits.padStart(12, '0'))
  return padded(a) < padded(b) ? -1 : 1
}

/** A moment as the clock on the wall shows it, with how far that is from UTC. */
export function inZone(at: Date): string {
  const minutes = -at.getTimezoneOffset()
  const local = new Date(at.getTime() + minutes * 60_000).toISOString().slice(0, 19)
  const two = (n: number) => String(Math.floor(Math.abs(n))).padStart(2, '0')
  return `${local}${minutes < 0 ? '-' : '+'}${two(minutes / 60)}:${two(minutes % 60)}`
}

/** The name in a folder that is nearest to one that is not there; '' where there is none, or no folder. */
function nearestBeside(path: string): string {
  try {
    return near(basename(path), readdirSync(dirname(path)).slice(0, 1000))
  } catch {
    return ''
  }
}

/** Capitals do not tell names apart on every disk. */
function freeName(name: string, taken: Set<string>): string {
  const [, stem = name, endings = ''] = /^(.+?)((?:\.[A-Za-z0-9]+)*)$/.exec(name) ?? []
  for (let n = 1; ; n++) {
    const free = n === 1 ? name : `${stem}-${n}${endings}`
    if (taken.has(free.toLowerCase())) continue
    taken.add(free.toLowerCase())
    return free
  }
}

/**
 * Writes the files of a new job. A folder that is there already is kept, and a file of it is never replaced: where one
 * is in the way nothing is written at all.
 *
 * @param texts  file -> contents, relative to the folder
 * @throws JobError `output-exists` for each file in the way; `leaves-folder` where a folder in it is a link that leads out
 *         of it; `cannot-write`
 */
export async function writeNewFolder(
  folder: string,
  { texts, captures }: { texts: ReadonlyMap<string, string>; captures: readonly NewCapture[] },
): Promise<void> {
  const copied = captures.filter(({ there }) => there !== true)
  const files = [...texts.keys(), ...copied.map((c) => c.file)]
  const inTheWay = await Promise.all(
    files.map((file) =>
      lstat(join(folder, file)).then(
        () => [file],
        () => [],
      ),
    ),
  )
  const problems = inTheWay.flat().map((file) => problem('output-exists', { file }, { path: file }))
  if (problems.length > 0) throw new JobError(problems)
  try {
    for (const file of files) {
      await makeFolder(dirname(join(folder, file)))
      await refuseLeading(folder, file)
    }
    for (const { path, file } of copied) await copyFile(path, join(folder, file), constants.COPYFILE_EXCL)
    for (const [file, text] of texts) await writeFile(join(folder, file), text, { flag: 'wx' })
  } catch (cause) {
    if (cause instanceof JobError) throw cause
    const why = (cause as NodeJS.ErrnoException).code ?? String(cause)
    throw new JobError([problem('cannot-write', { file: folder }, { path: folder, why })], { cause })
  }
}

/** A job may come from anybody: a link in it must not lead what is written to another place. */
async function refuseLeading(folder: string, file: string): Promise<void> {
  const [root, place] = await Promise.all([realpath(folder), realpath(dirname(join(folder, file)))])
  if (place !== root && !place.startsWith(root + sep))
    throw new JobError([problem('leaves-folder', { file }, { path: file })])
}

/**
 * Copies files into a job that is there, then replaces its job.yaml by one that names them: in this order, so that a
 * call cut short leaves a job that runs as before.
 * @throws JobError `output-exists` for a file in the way; `cannot-write`
 */
export async function addFiles(
  folder: string,
  { text, captures }: { text: string; captures: readonly NewCapture[] },
): Promise<void> {
  await writeNewFolder(folder, { texts: new Map(), captures })
  await replaceText(join(folder, 'job.yaml'), text)
}

/** Replaces a text file as a whole. @throws JobError `cannot-write` */
export async function replaceText(path: string, text: string): Promise<void> {
  const beside = `${path}.new`
  try {
    await rm(beside, { force: true }) // of a killed call, or a link that leads elsewhere
    await writeFile(beside, text, { flag: 'wx' })
    await rename(beside, path)
  } catch (cause) {
    const why = (cause as NodeJS.ErrnoException).code ?? String(cause)
    throw new JobError([problem('cannot-write', { file: path }, { path, why })], { cause })
  }
}
