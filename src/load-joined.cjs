/**
 * Loads the joined program (dist/app/), each file with the code V8 has compiled of it before, where that is kept beside
 * it: compiling took a third of the time of a cold report. V8 itself refuses kept code of another version, other flags
 * or another text; then the file is compiled as usual. It does not look for damage: so the code is kept behind its own
 * SHA-256, and counts as not there where that differs. Plain JavaScript, copied beside the files by the build.
 *
 *   BURNLINE_KEEP_CODE=1    (the build's) keeps the code of what this process runs, for files that have none yet
 */
'use strict'
const { createHash } = require('node:crypto')
const { existsSync, readFileSync, writeFileSync } = require('node:fs')
const { createRequire } = require('node:module')
const { join } = require('node:path')
const { setFlagsFromString } = require('node:v8')
const { Script } = require('node:vm')

const keeps = process.env.BURNLINE_KEEP_CODE === '1'
const modules = new Map()
const kept = new Map()

/** What a file of the joined program exports. */
function load(name) {
  const known = modules.get(name)
  if (known) return known.exports
  const filename = join(__dirname, name)
  const module = { exports: {} }
  modules.set(name, module)
  const script = compiled(filename)
  const outside = createRequire(filename)
  const inside = (id) => (id.startsWith('./') ? load(id.slice(2)) : outside(id))
  inside.resolve = outside.resolve
  script.runInThisContext().call(module.exports, module.exports, inside, module, filename, __dirname)
  return module.exports
}

function compiled(filename) {
  const codeFile = `${filename}.code`
  const cachedData = existsSync(codeFile) ? whole(readFileSync(codeFile)) : undefined
  const source = readFileSync(filename, 'latin1') // single bytes only, as the build has made them
  const script = new Script(source, { filename, cachedData })
  if (keeps && (cachedData === undefined || script.cachedDataRejected)) kept.set(codeFile, script)
  return script
}

const sha256 = (bytes) => createHash('sha256').update(bytes).digest()
const DIGEST_BYTES = 32

/** The code in a file's bytes, if they are as they were written. */
function whole(bytes) {
  const code = bytes.subarray(DIGEST_BYTES)
  return sha256(code).equals(bytes.subarray(0, DIGEST_BYTES)) ? code : undefined
}

if (keeps) {
  // V8 drops the code of functions that have not run for a while; the flag is part of what kept code must agree in.
  setFlagsFromString('--no-flush-bytecode')
  process.on('exit', () => {
    setFlagsFromString('--flush-bytecode')
    for (const [file, script] of kept) {
      const code = script.createCachedData()
      writeFileSync(file, Buffer.concat([sha256(code), code]))
    }
  })
}

module.exports = load
