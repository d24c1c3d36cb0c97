import { constants } from 'node:fs'
import { access, realpath, stat } from 'node:fs/promises'
import { isAbsolute, normalize, relative, sep } from 'node:path'
import { hasControl } from '../problems/control-characters.ts'
import { problem, type Problem } from '../problems/problem.ts'
import { excerpt } from './excerpt.ts'
import type { Place } from './place.ts'
import { nearestName, spelt } from './nearest-name.ts'
import { reasonOf } from './read-text.ts'

/** A file found, or what is wrong with it. */
export type Located = { ok: true; path: string } | { ok: false; problem: Problem }

/**
 * Finds a file the job names: a regular file that can be read, inside the folder with symbolic links followed.
 *
 * @param folder  real path of the job folder
 * @param file    path as the job names it
 * @param place   where the job names it
 */
export async function locateFile(folder: string, file: string, place: Place): Promise<Located> {
  const fail = (found: Problem): Located => ({ ok: false, problem: found })
  const path = excerpt(file)
  if (hasControl(file) || file.includes('\\')) {
    return fail(problem('wrong-value', place, { key: 'file', found: path, expected: 'phrase.file-path' }))
  }
  if (leaves(file)) return fail(problem('leaves-folder', place, { path }))
  try {
    const real = await realpath(await spelt(folder, file))
    if (!isInside(folder, real)) return fail(problem('leaves-folder', place, { path }))
    if (!(await stat(real)).isFile())
      return fail(problem('unreadable-file', place, { path, why: 'phrase.not-a-regular-file' }))
    await access(real, constants.R_OK)
    return { ok: true, path: real }
  } catch (cause) {
    return fail(await unfound(cause as NodeJS.ErrnoException, { folder, file, place }))
  }
}

/** True for a path that points out of the folder as written; links are followed later. */
function leaves(file: string): boolean {
  const plain = normalize(file)
  return isAbsolute(file) || /^[A-Za-z]:/.test(file) || plain === '..' || plain.startsWith(`..${sep}`)
}

function isInside(folder: string, path: string): boolean {
  const way = relative(folder, path)
  return way !== '' && way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way)
}

async function unfound(
  cause: NodeJS.ErrnoException,
  { folder, file, place }: { folder: string; file: string; place: Place },
): Promise<Problem> {
  const path = excerpt(file)
  if (cause.code !== 'ENOENT' && cause.code !== 'ENOTDIR')
    return problem('unreadable-file', place, { path, why: reasonOf(cause) })
  return problem('missing-file', place, { path, nearest: excerpt(await nearestName(folder, file)) })
}
