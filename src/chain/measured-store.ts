import { randomUUID } from 'node:crypto'
import { existsSync, lstatSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { deserialize, serialize } from 'node:v8'
import { deflateRawSync, inflateRawSync } from 'node:zlib'
import { digestFile } from '../files/digest-file.ts'
import { sha256 } from '../maths/sha256.ts'
import { makeFolderSync } from '../files/make-folder.ts'
import { readRegular } from '../files/regular-file.ts'

/** Name of the folder beside the outputs that keeps measurements; it can be deleted at any time. */
export const STORE_FOLDER = '.burnline-cache'

/** Most that is kept, bytes; the oldest goes first. A measurement takes some 100 KB. */
const MOST_BYTES = 2 ** 30
const DIGEST_BYTES = 32
const HALF_WRITTEN = 'new-'
/** Names of its folders and of what it writes into them: nothing else is ever removed. */
const SHARD = /^[0-9a-f]{2}$/
const ENTRY = /^(?:[0-9a-f]{32}-[0-9a-f]{64}$|new-)/

/**
 * Measurements kept by what they were made from, so that a run with other limits or texts need not measure again.
 * An entry is named by a digest of everything but the file that bears on it, and by the file's own digest. It begins
 * with the digest of its contents: one that is damaged counts as not there, and so does one that cannot be written.
 */
export interface MeasuredStore {
  /**
   * The entry for a file, if there is one.
   *
   * @param key   everything else the entry depends on; the size of the file counts with it
   * @param path  the file; it is hashed only where an entry of this key and size is there
   */
  find(key: unknown, path: string): Promise<unknown>
  /** Keeps an entry for a file with this digest. */
  keep(key: unknown, file: { sha256: string; bytes: number }, entry: unknown): void
}

/** Never finds and never keeps. */
export const NO_STORE: MeasuredStore = { find: async () => undefined, keep: () => undefined }

/** @param root  folder of the entries; made when the first is kept. Nothing is kept where a link stands in its place */
export function openStore(root: string): MeasuredStore {
  if (isLink(root)) return NO_STORE
  return {
    async find(key, path) {
      const prefix = prefixOf(key, statSync(path, { throwIfNoEntry: false })?.size ?? 0)
      const shard = join(root, prefix.slice(0, 2))
      const kept = listed(shard).filter((name) => name.startsWith(prefix))
      if (kept.length === 0) return undefined
      const name = `${prefix}-${(await digestFile(path)).sha256}`
      return kept.includes(name) ? readEntry(join(shard, name)) : undefined
    },
    keep(key, file, entry) {
      const prefix = prefixOf(key, file.bytes)
      writeEntry(join(root, prefix.slice(0, 2), `${prefix}-${file.sha256}`), entry)
    },
  }
}

/** Whoever can write beside the outputs could lead what is written, and what is pruned, to any other folder. */
function isLink(path: string): boolean {
  try {
    return lstatSync(path).isSymbolicLink()
  } catch {
    return false // not there: whoever writes there says so
  }
}

const prefixOf = (key: unknown, bytes: number): string => sha256(JSON.stringify([key, bytes])).slice(0, 32)

function listed(folder: string): string[] {
  try {
    return readdirSync(folder)
  } catch {
    return [] // nothing kept yet
  }
}

async function readEntry(path: string): Promise<unknown> {
  try {
    const bytes = await readRegular(path)
    const contents = bytes.subarray(DIGEST_BYTES)
    const whole = sha256(contents) === bytes.subarray(0, DIGEST_BYTES).toString('hex')
    return whole ? deserialize(inflateRawSync(contents)) : undefined
  } catch {
    return undefined // gone since, or of another Node: measured again
  }
}

function writeEntry(path: string, entry: unknown): void {
  const contents = deflateRawSync(serialize(entry), { level: 1 })
  const aside = join(dirname(path), `${HALF_WRITTEN}${randomUUID()}`)
  try {
    makeFolderSync(dirname(path))
    writeFileSync(aside, Buffer.concat([Buffer.from(sha256(contents), 'hex'), contents]))
    renameSync(aside, path)
  } catch {
    if (existsSync(aside)) rmSync(aside) // full or read-only: the output itself, which matters, says so
  }
}

/** Removes the oldest entries beyond the most that is kept, and what killed runs left half written. */
export function pruneStore(root: string, mostBytes = MOST_BYTES): void {
  if (isLink(root)) return
  const entries = listed(root)
    .filter((shard) => SHARD.test(shard) && !isLink(join(root, shard)))
    .flatMap((shard) =>
      listed(join(root, shard)).flatMap((name) => {
        if (!ENTRY.test(name)) return [] // none of ours
        const path = join(root, shard, name)
        const stat = statSync(path, { throwIfNoEntry: false })
        return stat
          ? [{ path, bytes: stat.size, writtenMs: stat.mtimeMs, half: name.startsWith(HALF_WRITTEN) }]
          : []
      }),
    )
    .sort((a, b) => b.writtenMs - a.writtenMs)
  let kept = 0
  for (const { path, bytes, half } of entries) {
    if (!half) kept += bytes
    if (half || kept > mostBytes) rmSync(path, { force: true })
  }
}
