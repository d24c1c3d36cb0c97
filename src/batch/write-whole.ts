import { mkdir, mkdtemp, open, rename, rm, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { JobError, problem } from '../problems/problem.ts'

/** Path inside the output folder -> its bytes. */
export type OutputFiles = ReadonlyMap<string, Uint8Array | string>

/**
 * Writes a folder whole or not at all: everything goes into a folder beside it, is forced to the disk, and is renamed
 * into place. An older folder of the same name is moved aside first and removed only when the new one stands.
 *
 * @throws JobError `cannot-write` with the system's reason; nothing of the new folder is left then
 */
export async function writeWhole(target: string, files: OutputFiles): Promise<void> {
  const parent = dirname(target)
  let aside: string | undefined
  try {
    await mkdir(parent, { recursive: true })
    aside = await mkdtemp(join(parent, '.burnline-'))
    const fresh = join(aside, 'new')
    for (const [path, bytes] of files) {
      await mkdir(dirname(join(fresh, path)), { recursive: true })
      await writeFile(join(fresh, path), bytes, { flush: true })
    }
    await syncFolder(fresh)
    await moveIfThere(target, join(aside, 'old'))
    try {
      await rename(fresh, target)
    } catch (cause) {
      await moveIfThere(join(aside, 'old'), target)
      throw cause
    }
  } catch (cause) {
    const why = cause instanceof Error ? cause.message : String(cause)
    throw new JobError([problem('cannot-write', { file: target }, { path: target, why })], { cause })
  } finally {
    if (aside) await rm(aside, { recursive: true, force: true })
  }
}

async function moveIfThere(from: string, to: string): Promise<void> {
  try {
    await rename(from, to)
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code !== 'ENOENT') throw cause
  }
}

/** Forces a folder's entries to the disk, where the system lets a folder be opened. */
async function syncFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return
  const handle = await open(folder, 'r')
  try {
    await handle.sync()
  } finally {
    await handle.close()
  }
}
