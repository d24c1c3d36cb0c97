import {
  closeSync,
  fsyncSync,
  ftruncateSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
  writeSync,
} from 'node:fs'
import { setTimeout as pause } from 'node:timers/promises'
import { JobError, problem } from '../problems/problem.ts'
import { ledgerLine, lineDigest, walkLedger, type LedgerFacts } from '../seal/ledger.ts'
import type { Signer } from '../seal/signing-key.ts'
import { HOST, isGone } from '../files/whose.ts'

/** Another call may be writing; each look costs a pause of `BUSY_MS`. */
const LOOKS = 100
const BUSY_MS = 100

/**
 * Enters reports into a ledger that is not there yet, or continues it. A report whose newest line names the same
 * manifest is not entered again, so a call that was broken off is made good by the next.
 *
 * A line counts once its line end is written: what a killed call left behind the last one is cut off first.
 * Writers take turns by a file beside the ledger that says whose turn it is. What a killed one left is taken over; only
 * where it ran on another machine, which nobody here can ask, is it removed by hand.
 *
 * @returns digest of the last line
 * @throws JobError `cannot-write` where the ledger is broken, busy, or cannot be written
 */
export async function enterReports(
  path: string,
  reports: readonly LedgerFacts[],
  signer: Signer | undefined,
): Promise<string> {
  const turn = `${path}.turn`
  await takeTurn(turn, path)
  try {
    return write(path, reports, signer)
  } catch (cause) {
    if (cause instanceof JobError) throw cause
    throw cannotWrite(path, (cause as NodeJS.ErrnoException).code ?? String(cause), cause)
  } finally {
    rmSync(turn, { force: true })
  }
}

const cannotWrite = (path: string, why: string, cause?: unknown): JobError =>
  new JobError([problem('cannot-write', { file: path }, { path, why })], { cause })

async function takeTurn(turn: string, path: string): Promise<void> {
  for (let look = 1; ; look++) {
    try {
      return writeFileSync(turn, `${HOST} ${process.pid}\n`, { flag: 'wx' })
    } catch (cause) {
      const { code } = cause as NodeJS.ErrnoException
      if (code !== 'EEXIST') throw cannotWrite(path, code ?? String(cause), cause)
      if (look === LOOKS) throw cannotWrite(turn, 'EEXIST', cause)
      if (!endTurnOfDead(turn)) await pause(BUSY_MS)
    }
  }
}

/** Takes away the turn of a process that is gone. @returns false where it may still be somebody's */
function endTurnOfDead(turn: string): boolean {
  const aside = `${turn}.${HOST}-${process.pid}`
  try {
    const holder = readFileSync(turn, 'utf8')
    const [host = '', pid] = holder.trim().split(' ')
    if (!isGone(host, Number(pid))) return false
    renameSync(turn, aside)
    // Another may have been quicker, and this be its living turn already.
    if (readFileSync(aside, 'utf8') === holder) rmSync(aside)
    else renameSync(aside, turn)
    return true
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code !== 'ENOENT') throw cause
    return true // ended by itself
  }
}

function write(path: string, reports: readonly LedgerFacts[], signer: Signer | undefined): string {
  const file = openSync(path, 'a+')
  try {
    const bytes = readFileSync(file)
    const whole = bytes.subarray(0, bytes.lastIndexOf(0x0a) + 1)
    const ledger = walkLedger(whole.toString('utf8'), path)
    const fault = ledger.findings.find((f) => f.severity === 'broken')
    if (fault) throw cannotWrite(path, fault.code)
    if (whole.length < bytes.length) ftruncateSync(file, whole.length)
    const newest = new Map(ledger.newest)
    let last = { n: ledger.n, digest: ledger.digest }
    for (const facts of reports) {
      if (newest.get(facts.work_order) === facts.manifest) continue
      const line = ledgerLine(last, facts, signer)
      writeSync(file, `${line}\n`)
      newest.set(facts.work_order, facts.manifest)
      last = { n: last.n + 1, digest: lineDigest(line) }
    }
    fsyncSync(file)
    return last.digest
  } finally {
    closeSync(file)
  }
}
