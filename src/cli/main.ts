#!/usr/bin/env node
import { createHash } from 'node:crypto'
import { existsSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { setFlagsFromString } from 'node:v8'

/** The program in few files, as the build joins it: opening hundreds of small ones takes longer than a short command. */
const JOINED = new URL('../app/load.js', import.meta.url)
const MADE_FROM = new URL('../app/made-from', import.meta.url)
/** Rewritten by the compiler whenever it writes a file. */
const COMPILED = new URL('../.tsbuildinfo', import.meta.url)

/** Whether the joined program is that of the files as last compiled. */
function isJoined(): boolean {
  if (!existsSync(JOINED) || !existsSync(MADE_FROM) || !existsSync(COMPILED)) return false
  return createHash('sha256').update(readFileSync(COMPILED)).digest('hex') === readFileSync(MADE_FROM, 'utf8')
}

/**
 * Bytecodes a function runs before V8 looks whether to compile it for speed: six times what V8 has. A report is over in a
 * second or two; with the usual figure a third of its processor time went into compiling functions that were then hardly
 * called any more. Loops over samples are hot enough all the same.
 */
const RUN_BEFORE_COMPILING = 400_000
setFlagsFromString(`--interrupt-budget=${RUN_BEFORE_COMPILING}`)
// V8 would compile a small function the first time it looks, however seldom it runs: of 2 200 compilations in forty jobs 1 600 were these.
setFlagsFromString('--max-bytecode-size-for-early-opt=0')

if (isJoined()) (createRequire(JOINED)('./load.js') as (file: string) => unknown)('run.js')
else await import('./run.ts')
