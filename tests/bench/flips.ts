import {
  appendFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { spawnSync } from 'node:child_process'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { verifyOutput } from '../../src/evidence/verify-output.ts'
import { publicKeyOf } from '../../src/seal/signing-key.ts'
import { compareWithLedger, walkLedger } from '../../src/seal/ledger.ts'
import { smallJob } from './fuzz/small-job.ts'

/**
 *   npm run flips                      every byte of every file of three small outputs, and of a ledger
 *   npm run flips -- --stride 50       every fiftieth; manifests, ledger and both ends of a report whole anyway
 *
 * Changes one byte of an output after another and asks `verify`: an unsigned output, a signed one, a signed one's
 * redacted copy, a report alone, and a signed ledger. Each place has one bit turned, its letter case turned, and is
 * taken out or doubled, in turn; the ledger and the ends of a report alone have all four. Exit code 1 when a change is
 * not found, or `verify` itself breaks.
 */
const { values } = parseArgs({ options: { stride: { type: 'string', default: '1' } } })
const stride = Number(values.stride)
const scratch = mkdtempSync(join(tmpdir(), 'burnline-flips-'))
const MAIN = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url))
const at = (...parts: string[]) => join(scratch, ...parts)
/** Bytes at both ends of a report that are all taken: the seal stands in the first, the table's address in the last. */
const ENDS = 512

type Change = (bytes: Buffer, where: number) => Buffer
const turned =
  (mask: number): Change =>
  (bytes, where) => {
    const changed = Buffer.from(bytes)
    changed[where]! ^= mask
    return changed
  }
const CHANGES: readonly Change[] = [
  (bytes, where) => turned(1 << (where % 8))(bytes, where),
  turned(0x20),
  (bytes, where) => Buffer.concat([bytes.subarray(0, where), bytes.subarray(where + 1)]),
  (bytes, where) => Buffer.concat([bytes.subarray(0, where + 1), bytes.subarray(where)]),
]

makeOutputs()
const publicKey = publicKeyOf(readFileSync(at('shop.key.pub'), 'utf8'))
let quiet = 0
await flipFolder('unsigned output', at('plain', 'S-1'))
await flipFolder('signed output', at('signed', 'S-1'), publicKey)
await flipFolder('redacted copy', at('copies', 'S-1.redacted'), publicKey)
await flipFile(
  'signed report alone',
  at('signed', 'S-1', 'report.pdf'),
  async (path) => isBroken(path, publicKey),
  CHANGES.length,
)
await flipFile('ledger', at('ledger'), async (path) => ledgerIsBroken(path), CHANGES.length)
rmSync(scratch, { recursive: true, force: true })
process.exitCode = quiet > 0 ? 1 : 0

function makeOutputs(): void {
  for (const [file, bytes] of smallJob()) {
    mkdirSync(dirname(at('job', file)), { recursive: true })
    writeFileSync(at('job', file), bytes)
  }
  const run = (...args: string[]) => {
    const done = spawnSync(process.execPath, [MAIN, ...args], { cwd: scratch, encoding: 'utf8' })
    if (done.status !== 0) throw new Error(`${args.join(' ')}: ${done.stderr}`)
  }
  run('key', 'shop.key')
  run('report', 'job', '--out', 'plain')
  const signed = ['--key', 'shop.key', '--captures']
  run('report', 'job', '--out', 'signed', ...signed, '--ledger', 'ledger')
  appendFileSync(at('job', 'test-log.csv'), '2026-03-05T10:00,note,,,,,,once more\n')
  run('report', 'job', '--out', 'signed', ...signed, '--ledger', 'ledger')
  run('redact', 'job', '--redact', 'technician', '--out', 'copies', ...signed)
}

async function isBroken(path: string, key?: string): Promise<boolean> {
  const { findings } = await verifyOutput(path, key === undefined ? {} : { publicKey: key })
  return findings.some((f) => f.severity === 'broken')
}

async function ledgerIsBroken(path: string): Promise<boolean> {
  const { manifest } = await verifyOutput(at('signed', 'S-1'), {})
  const walked = walkLedger(readFileSync(path, 'utf8'), path, { publicKey })
  return [...walked.findings, ...compareWithLedger(walked, new Map([['S-1', manifest!]]))].some(
    (f) => f.severity === 'broken',
  )
}

async function flipFolder(what: string, folder: string, key?: string): Promise<void> {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => statSync(join(folder, name)).isFile())
    .sort()
  for (const file of files)
    await flipFile(`${what}, ${file}`, join(folder, file), () => isBroken(folder, key))
}

/** Changes a file place by place and puts it back; prints how many changes were made and how many found. */
async function flipFile(
  what: string,
  path: string,
  isFound: (path: string) => Promise<boolean>,
  most = 1,
): Promise<void> {
  const whole = readFileSync(path)
  if (await isFound(path)) throw new Error(`${what}: broken before anything was changed`)
  const whollyTaken = /manifest\.json$|ledger$/.test(path)
  const missed: string[] = []
  let [places, made] = [0, 0]
  for (let where = 0; where < whole.length; where++) {
    const end = most > 1 && (where < ENDS || where >= whole.length - ENDS)
    if (!whollyTaken && !end && where % stride !== 0) continue
    places++
    const changes = (whollyTaken || end) && most > 1 ? CHANGES : [CHANGES[where % CHANGES.length]!]
    for (const [i, change] of changes.entries()) {
      const changed = change(whole, where)
      if (changed.equals(whole)) continue // a byte between two of its kind
      writeFileSync(path, changed)
      made++
      if (!(await isFound(path))) missed.push(`${where} (change ${i + 1})`)
    }
  }
  writeFileSync(path, whole)
  quiet += missed.length
  process.stdout.write(
    `${what}: ${places} of ${whole.length} bytes, ${made} changes, ${made - missed.length} found${missed.length > 0 ? `; not found at ${missed.slice(0, 20).join(', ')}` : ''}\n`,
  )
}
