import { statSync, type Stats } from 'node:fs'

/** What the system says of a path; undefined where nothing is there, or a file stands where a folder should. */
export function statOf(path: string): Stats | undefined {
  try {
    return statSync(path, { throwIfNoEntry: false })
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === 'ENOTDIR') return undefined
    throw cause
  }
}
