import { mkdirSync, renameSync } from 'node:fs'
import { lstat, mkdtemp, open, readdir, rm, writeFile } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'
import { JobError, problem } from '../problems/problem.ts'
import { asidePrefix, oldFolder } from './leftovers.ts'
import { makeFolder } from './make-folder.ts'
import { MANIFEST_BOUNDS, readJsonText } from './bounded-json.ts'

/** Path inside the output folder -> its bytes. */
export type OutputFiles = ReadonlyMap<string, Uint8Array | string>

/** Another run may clear away what we build, or put its own result in place first; each such meeting costs one try. */
const TRIES = 8
const IN_THE_WAY = ['ENOTEMPTY', 'EEXIST']

/**
 * Writes a folder whole or not at all: everything goes into a folder beside it, is forced to the disk, and is renamed
 * into place. An older folder of the same name is moved aside right before and removed when the new one stands.
 * Two runs at once end with the complete result of one of them.
 *
 * @throws JobError `output-exists` where something stands there that this program did not make; `cannot-write` with the
 *         system's reason. Nothing of the new folder is left then, and the old one stands
 */
export async function writeWhole(target: string, files: OutputFiles): Promise<void> {
  for (let turn = 1; ; turn++) {
    try {
      return await build(target, files)
    } catch (cause) {
      if (cause instanceof JobError) throw cause
      const { code, message } = cause as NodeJS.ErrnoException
      if (code === 'ENOENT' && turn < TRIES) continue // our folder was cleared away under us
      throw new JobError(
        [problem('cannot-write', { file: target }, { path: target, why: code ?? message })],
        { cause },
      )
    }
  }
}

async function build(target: string, files: OutputFiles): Promise<void> {
  const parent = dirname(target)
  await makeFolder(parent)
  await refuseForeign(target)
  const aside = await mkdtemp(join(parent, asidePrefix()))
  try {
    const fresh = join(aside, 'new')
    const folders = [...new Set(['.', ...[...files.keys()].map((path) => dirname(path))])].map((folder) =>
      join(fresh, folder),
    )
    for (const folder of folders) await makeFolder(folder)
    await Promise.all([...files].map(([path, bytes]) => writeFile(join(fresh, path), bytes, { flush: true })))
    await Promise.all(folders.map(syncFolder))
    swap({ fresh, target, aside })
    await syncFolder(parent)
  } finally {
    await rm(aside, { recursive: true, force: true })
  }
}

/**
 * Puts the new folder in place of the old. The two renames follow each other without a pause: a run killed between
 * them leaves the old folder, complete, where the next run finds it and puts it back.
 */
function swap({ fresh, target, aside }: { fresh: string; target: string; aside: string }): void {
  for (let turn = 1; ; turn++) {
    const old = join(aside, oldFolder(turn), basename(target))
    mkdirSync(dirname(old))
    moveIfThere(target, old)
    try {
      return renameSync(fresh, target)
    } catch (cause) {
      const anotherStands = IN_THE_WAY.includes((cause as NodeJS.ErrnoException).code ?? '')
      if (!anotherStands) moveIfThere(old, target)
      if (!anotherStands || turn === TRIES) throw cause
    }
  }
}

function moveIfThere(from: string, to: string): void {
  try {
    renameSync(from, to)
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code !== 'ENOENT') throw cause
  }
}

/** Only an empty folder, or one with a manifest of ours, may be replaced. */
async function refuseForeign(target: string): Promise<void> {
  for (let turn = 1; turn <= TRIES; turn++) {
    if ((await isOurs(target)) || (await isFree(target))) return
  }
  throw new JobError([problem('output-exists', { file: target }, { path: target })])
}

async function isOurs(target: string): Promise<boolean> {
  try {
    const manifest = JSON.parse(readJsonText(join(target, 'manifest.json'), MANIFEST_BOUNDS)) as {
      program?: { name?: unknown }
    } | null
    return manifest?.program?.name === 'burnline' && (await lstat(target)).isDirectory()
  } catch {
    return false // no manifest, or none of ours: `isFree` decides
  }
}

async function isFree(target: string): Promise<boolean> {
  try {
    return (await lstat(target)).isDirectory() && (await readdir(target)).length === 0
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === 'ENOENT') return true
    throw cause
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
