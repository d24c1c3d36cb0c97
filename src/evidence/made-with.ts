import { createHash } from 'node:crypto'
import { closeSync, existsSync, openSync, readdirSync, readFileSync, readSync, statSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { LANGUAGES, TEMPLATES } from '../texts/load-texts.ts'
import { sha256 } from '../maths/sha256.ts'

/** Choices of a call that change what is written, by name. */
export type OutputOptions = Readonly<Record<string, string | boolean>>

/** What a report is made with besides its inputs. Equal inputs and an equal `MadeWith` give equal bytes. */
export interface MadeWith {
  /** SHA-256 over the program's own code and the versions of its packages. */
  program: string
  /** File below templates/ -> SHA-256: limits, texts of the language, causes, sources. */
  templates: Readonly<Record<string, string>>
  options: OutputOptions
}

/** Folder of the program's code as it runs: this file's own where the build joined it into few files, else all of them. */
const HERE = dirname(fileURLToPath(import.meta.url))
const IS_JOINED = basename(HERE) === 'app'
const PROGRAM = IS_JOINED ? HERE : dirname(HERE)
const PACKAGE = fileURLToPath(new URL('../../', import.meta.url))
/** Joined files hold the packages; the fonts beside them are of the version package.json pins. Else the packages' versions are those of the lock file. */
const PACKAGE_FILES = IS_JOINED ? ['package.json'] : ['package.json', 'package-lock.json']

/** Takes the digests of the program as it runs and of its templates. The fonts come with a package, whose version counts. */
export function madeWith(options: OutputOptions, language: string): MadeWith {
  const templates = fileURLToPath(TEMPLATES)
  const counted = filesBelow(templates).filter(
    (file) => !file.endsWith('.schema.json') && !ofOtherLanguage(file, language),
  )
  return {
    program: programDigest(),
    templates: Object.fromEntries(counted.map((file) => [file, sha256(readFileSync(join(templates, file)))])),
    options,
  }
}

const ofOtherLanguage = (file: string, language: string): boolean =>
  LANGUAGES.some(
    (other) => other !== language && /^(limit-)?texts\//.test(file) && basename(file) === `${other}.yaml`,
  )

/** SHA-256 over the program's own code as it runs and the versions of its packages. */
export function programDigest(): string {
  const code = filesBelow(PROGRAM)
    .filter((file) => /\.(js|ts|json)$/.test(file))
    .map((file) => [file, join(PROGRAM, file)] as const)
  const packages = PACKAGE_FILES.map((file) => [file, join(PACKAGE, file)] as const).filter(([, path]) =>
    existsSync(path),
  )
  const hash = createHash('sha256')
  // One buffer for all files: new memory for each costs more than hashing them.
  let room = Buffer.allocUnsafeSlow(0)
  for (const [file, path] of [...code, ...packages]) {
    const { size } = statSync(path)
    if (size > room.length) room = Buffer.allocUnsafeSlow(2 * size)
    hash
      .update(file)
      .update('\0')
      .update(room.subarray(0, readInto(room, path)))
      .update('\0')
  }
  return hash.digest('hex')
}

/** @returns  bytes read: all of the file, where the buffer is no smaller */
function readInto(room: Uint8Array, path: string): number {
  const file = openSync(path, 'r')
  try {
    let at = 0
    for (let read = -1; read !== 0; at += read) read = readSync(file, room, at, room.length - at, at)
    return at
  } finally {
    closeSync(file)
  }
}

/** Files below a folder, relative, with forward slashes, in the order of their names. */
function filesBelow(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) =>
      join(entry.parentPath, entry.name).slice(folder.length).split('\\').join('/').replace(/^\//, ''),
    )
    .sort()
}
