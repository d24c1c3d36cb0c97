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
    await mkdir(path)
  }
}
