import { readdir, rename, rm, mkdtemp } from 'node:fs/promises'
import { join } from 'node:path'
import { HOST, isAlive } from './whose.ts'

const PREFIX = '.burnline-tmp-'
const NAME = /^\.burnline-tmp-([A-Za-z0-9_]*)-(\d+)-/

/** Start of the name of a folder in which this process builds an output: it tells later runs whose it was. */
export const asidePrefix = (): string => `${PREFIX}${HOST}-${process.pid}-`

/** Folder inside such a folder that receives what stood before, under its own name. */
export const oldFolder = (turn: number): string => `old-${turn}`

/**
 * Clears what killed runs left beside the outputs. An output that a killed run had moved away and not yet replaced is
 * put back first, so that what stands is the old one or the new one.
 *
 * There are no locks. Only the folders of processes that still run on this machine are left alone; one taken from a
 * run on another machine makes that run build again (see `writeWhole`). Each is renamed before it is deleted, so that
 * nobody can rename a half-deleted folder into place.
 *
 * What cannot be cleared now is left to the next run; a folder that cannot be written shows itself when it is written.
 *
 * @param outRoot  folder of the outputs; none there is nothing to clear
 * @param whose    `dead`: of every run that is gone; `own`: of this process, when none of its jobs runs any more
 */
export async function clearLeftovers(outRoot: string, whose: 'dead' | 'own'): Promise<void> {
  const names = await readdir(outRoot).catch(() => [])
  for (const name of names) {
    if (!(whose === 'own' ? name.startsWith(asidePrefix()) : isLeftover(name))) continue
    const leftover = join(outRoot, name)
    await putBack(leftover, outRoot)
    await remove(leftover, outRoot).catch(() => undefined)
  }
}

function isLeftover(name: string): boolean {
  const [, host, pid] = NAME.exec(name) ?? []
  if (host === undefined) return false
  return host !== HOST || Number(pid) === process.pid || !isAlive(Number(pid))
}

/** Renames fail where something stands in the place again, which is as it should be. */
async function putBack(leftover: string, outRoot: string): Promise<void> {
  const inside = await readdir(leftover).catch(() => [])
  for (const old of inside
    .filter((name) => name.startsWith('old-'))
    .sort()
    .reverse()) {
    for (const workOrder of await readdir(join(leftover, old)).catch(() => [])) {
      await rename(join(leftover, old, workOrder), join(outRoot, workOrder)).catch(() => undefined)
    }
  }
}

async function remove(leftover: string, outRoot: string): Promise<void> {
  const bin = await mkdtemp(join(outRoot, asidePrefix()))
  const gone = join(bin, 'gone')
  await rename(leftover, gone).catch(() => undefined)
  await putBack(gone, outRoot) // what a living run moved away in the meantime
  await rm(bin, { recursive: true, force: true })
}
