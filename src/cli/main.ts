#!/usr/bin/env node
import { existsSync } from 'node:fs'
import { createRequire } from 'node:module'
import { setFlagsFromString } from 'node:v8'
import { EXIT } from './exit-codes.ts'

/** The oldest Node the program runs on; package.json says the same to npm. */
const OLDEST = [20, 19] as const
const [major, minor] = process.versions.node.split('.').map(Number) as [number, number]

if (major < OLDEST[0] || (major === OLDEST[0] && minor < OLDEST[1])) {
  process.stderr.write(
    `burnline: needs Node ${OLDEST.join('.')} or later; this is ${process.version} (${process.execPath})\n`,
  )
  process.exitCode = EXIT.unavailable
} else if (!hasWorkingFolder()) {
  process.stderr.write('burnline: the working folder is gone; change to one that is there\n')
  process.exitCode = EXIT.noInput
} else {
  // V8 of Node 20 spends a quarter of a cold report on compiling functions for speed that are then hardly called any more;
  // six times its own figure of bytecodes run before it looks is enough. Later ones neither need nor know the flag.
  if (major === OLDEST[0]) setFlagsFromString('--interrupt-budget=400000')
  /** The program in few files, as the build joins it: opening hundreds of small ones takes longer than a short command. */
  const joined = new URL('../app/run.js', import.meta.url)
  try {
    if (existsSync(joined)) createRequire(joined)('./run.js')
    else await import('./command-line.ts')
  } catch (cause) {
    const { code, message } = cause as NodeJS.ErrnoException
    if (code !== 'EMFILE' && code !== 'ENFILE') throw cause
    process.stderr.write(`burnline: ${message}\n`)
    process.exitCode = EXIT.tryAgain
  }
}

function hasWorkingFolder(): boolean {
  try {
    process.cwd()
    return true
  } catch {
    return false // removed since it was entered
  }
}
