import { mkdirSync } from 'node:fs'
import { mkdir } from 'node:fs/promises'
import { dirname } from 'node:path'

/**
 * Makes a folder and those above it; one that is there already is kept. Level by level: the platform's own way never
 * ends where a file system says of a folder above that it is there and of one below that it is not, as /proc does.
 *
 * @throws the system's own error
 */
export async function makeFolder(path: string): Promise<void> {
  try {
    await mkdir(path)
  } catch (cause) {
    const { code } = cause as NodeJS.ErrnoException
    if (code === 'EEXIST') return // a file in its place shows when something is written into it
    if (code !== 'ENOENT' || dirname(path) === path) throw cause
    await makeFolder(dirname(path))
    await mkdir(path).catch(unlessThere)
  }
}

/** Another run may make the same folder at the same time. */
function unlessThere(cause: NodeJS.ErrnoException): void {
  if (cause.code !== 'EEXIST') throw cause
}

/** The same, at once. */
export function makeFolderSync(path: string): void {
  try {
    mkdirSync(path)
  } catch (cause) {
    const { code } = cause as NodeJS.ErrnoException
    if (code === 'EEXIST') return
    if (code !== 'ENOENT' || dirname(path) === path) throw cause
    makeFolderSync(dirname(path))
    try {
      mkdirSync(path)
    } catch (cause) {
      unlessThere(cause as NodeJS.ErrnoException)
    }
  }
}
