import { constants } from 'node:fs'
import { copyFile, lstat, stat, writeFile } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'
import { JobError, problem, type Problem } from '../problems/problem.ts'
import { makeFolder } from './make-folder.ts'

/** A capture to copy: where it is, what it is called in the job folder, its own date (UTC, ISO 8601). */
export interface NewCapture {
  path: string
  file: string
  taken: string
}

/** Characters a job may not name a file with. */
const REFUSED = /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff\\/:*?"<>|]/g

/**
 * What each capture will be called; two of one name are told apart by a number.
 * @throws JobError `missing-file`, `unreadable-file` with every capture that cannot be copied
 */
export async function namedCaptures(paths: readonly string[]): Promise<NewCapture[]> {
  const taken = new Set<string>()
  const problems: Problem[] = []
  const named: NewCapture[] = []
  for (const path of paths) {
    const found = await stat(path).catch((cause: NodeJS.ErrnoException) => cause)
    if (found instanceof Error) {
      const missing = found.code === 'ENOENT' || found.code === 'ENOTDIR'
      problems.push(
        missing
          ? problem('missing-file', { file: path }, { path, nearest: '' })
          : problem('unreadable-file', { file: path }, { path, why: found.code ?? 'phrase.unknown' }),
      )
    } else if (!found.isFile())
      problems.push(problem('unreadable-file', { file: path }, { path, why: 'phrase.not-a-regular-file' }))
    else
      named.push({
        path,
        file: `captures/${freeName(basename(path).replace(REFUSED, '-'), taken)}`,
        taken: `${found.mtime.toISOString().slice(0, 19)}Z`,
      })
  }
  if (problems.length > 0) throw new JobError(problems)
  return named
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
 * @throws JobError `output-exists` for each file in the way; `cannot-write`
 */
export async function writeNewFolder(
  folder: string,
  { texts, captures }: { texts: ReadonlyMap<string, string>; captures: readonly NewCapture[] },
): Promise<void> {
  const files = [...texts.keys(), ...captures.map((c) => c.file)]
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
    for (const file of files) await makeFolder(dirname(join(folder, file)))
    for (const { path, file } of captures) await copyFile(path, join(folder, file), constants.COPYFILE_EXCL)
    for (const [file, text] of texts) await writeFile(join(folder, file), text, { flag: 'wx' })
  } catch (cause) {
    const why = (cause as NodeJS.ErrnoException).code ?? String(cause)
    throw new JobError([problem('cannot-write', { file: folder }, { path: folder, why })], { cause })
  }
}
