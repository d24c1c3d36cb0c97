import { createHash } from 'node:crypto'
import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { Script } from 'node:vm'

/** Where the build puts the program joined into few files. */
const APP = fileURLToPath(new URL('../app/', import.meta.url))
/** First bytes of a file of compiled code: the SHA-256 of the text it was compiled from and of the code. */
const DIGEST_BYTES = 32

/** Files that load each other, and the code the build compiled from them. */
export interface Joined {
  /** Runs a file, once, and returns what it exports. */
  load(name: string): unknown
  /** Keeps the code compiled so far of every file loaded. */
  keepCode(): void
  /** Whether a loaded file ran from kept code. */
  ranFromCode(name: string): boolean
}

interface Loaded { module: { exports: unknown }; script: Script; source: Buffer; fromCode: boolean }

/**
 * Loads the files of a folder with the code kept beside them, because compiling a few megabytes takes longer than
 * reading a capture. Where there is none, where text or code are not what they were, or where the engine is of another
 * version (which it finds out by itself), the text is compiled.
 */
export function joinedIn(folder: string): Joined {
  const loaded = new Map<string, Loaded>()
  const nodeRequire = createRequire(folder)
  const load = (name: string): unknown => {
    const known = loaded.get(name)
    if (known) return known.module.exports
    const path = join(folder, name)
    const file = { module: { exports: {} }, ...compiled(path) }
    loaded.set(name, file) // before it runs: files that load each other find what is there so far
    const beside = (other: string): unknown => other.startsWith('./') ? load(other.slice(2)) : nodeRequire(other)
    const run = file.script.runInThisContext() as (...parts: unknown[]) => void
    run(file.module.exports, beside, file.module, path, folder)
    return file.module.exports
  }
  return {
    load,
    keepCode: () => { for (const [name, file] of loaded) keep(join(folder, name), file) },
    ranFromCode: (name) => loaded.get(name)?.fromCode ?? false,
  }
}

function compiled(path: string): Omit<Loaded, 'module'> {
  const source = readFileSync(path)
  const cachedData = codeOf(path, source)
  const text = `(function (exports, require, module, __filename, __dirname) { ${source.toString('utf8')}\n})`
  const script = new Script(text, { filename: path, ...(cachedData ? { cachedData } : {}) })
  return { script, source, fromCode: script.cachedDataRejected === false }
}

const codeFile = (path: string): string => `${path}.code`
const digestOf = (source: Buffer, code: Buffer): Buffer => createHash('sha256').update(source).update(code).digest()

/** The engine looks at no more than the length of text and code, so their digest is held against them here. */
function codeOf(path: string, source: Buffer): Buffer | undefined {
  if (!existsSync(codeFile(path))) return undefined
  const kept = readFileSync(codeFile(path))
  const code = kept.subarray(DIGEST_BYTES)
  return digestOf(source, code).equals(kept.subarray(0, DIGEST_BYTES)) ? code : undefined
}

function keep(path: string, { script, source }: Loaded): void {
  const code = script.createCachedData()
  const part = `${codeFile(path)}.part`
  writeFileSync(part, Buffer.concat([digestOf(source, code), code]))
  renameSync(part, codeFile(path))
}

/** The program itself, in this thread. */
export const program: Joined = joinedIn(APP)
