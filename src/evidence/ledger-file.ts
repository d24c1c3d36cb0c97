import {
  closeSync,
  existsSync,
  fstatSync,
  fsyncSync,
  ftruncateSync,
  linkSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { setTimeout as pause } from 'node:timers/promises'
import { JobError, problem } from '../problems/problem.ts'
import { ledgerLine, lineDigest, MOST_LEDGER_BYTES, walkLedger, type LedgerFacts } from '../seal/ledger.ts'
import type { Signer } from '../seal/signing-key.ts'
import { HOST, isGone } from '../files/whose.ts'
import { openRegularSync, readRegularText } from '../files/regular-file.ts'

/** Another call may be writing; each look costs a pause of `BUSY_MS`. */
const LOOKS = 100
const BUSY_MS = 100
/** Looks after which a turn that names nobody, and stays so, is taken for half made. */
const HALF_MADE_LOOKS = 20
/** What file systems without hard links answer. */
const NO_LINKS = ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK']

/**
 * Enters reports into a ledger that is not there yet, or continues it. A report whose newest line names the same
 * manifest is not entered again, so a call that was broken off is made good by the next.
 *
 * A line counts once its line end is written: what a killed call left behind the last one is cut off first.
 * Writers take turns by a file beside the ledger that says whose turn it is. What a killed one left, or a full disk half
 * made, is taken over; only where it ran on another machine, which nobody here can ask, is it removed by hand.
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
  let nameless = 0
  for (let look = 1; ; look++) {
    try {
      return makeTurn(turn)
    } catch (cause) {
      const { code } = cause as NodeJS.ErrnoException
      if (code !== 'EEXIST') throw cannotWrite(path, code ?? String(cause), cause)
      if (look === LOOKS) throw cannotWrite(turn, 'EEXIST', cause)
      nameless = namesSomebody(turn) ? 0 : nameless + 1
      if (!endTurn(turn, nameless >= HALF_MADE_LOOKS)) await pause(BUSY_MS)
    }
  }
}

/** The turn is there with its holder's name or not at all: written beside its place, forced to the disk, and linked into it. */
function makeTurn(turn: string): void {
  const aside = `${turn}.${HOST}-${process.pid}.new`
  try {
    rmSync(aside, { force: true }) // of a killed call that had the same number, or a link that leads elsewhere
    writeFileSync(aside, holderText(), { flag: 'wx', flush: true })
    linkSync(aside, turn)
  } catch (cause) {
    if (!NO_LINKS.includes((cause as NodeJS.ErrnoException).code ?? '')) throw cause
    writeInPlace(turn)
  } finally {
    rmSync(aside, { force: true })
  }
}

/** Where nothing can be linked: a turn that is begun and cannot be written is taken back. */
function writeInPlace(turn: string): void {
  const file = openSync(turn, 'wx')
  try {
    writeFileSync(file, holderText())
  } catch (cause) {
    rmSync(turn, { force: true })
    throw cause
  } finally {
    closeSync(file)
  }
}

const holderText = (): string => `${HOST} ${process.pid}\n`

function namesSomebody(turn: string): boolean {
  try {
    return /^\S+ \d+\n$/.test(readRegularText(turn))
  } catch {
    return false // ended by itself, or no file
  }
}

/** Takes away the turn of a process that is gone, or one that was half made. @returns false where it may still be somebody's */
function endTurn(turn: string, halfMade: boolean): boolean {
  const aside = `${turn}.${HOST}-${process.pid}`
  try {
    const holder = readRegularText(turn)
    const [host = '', pid] = holder.trim().split(' ')
    if (!halfMade && !isGone(host, Number(pid))) return false
    renameSync(turn, aside)
    // Another may have been quicker, and this be its living turn already.
    if (readRegularText(aside) === holder) rmSync(aside)
    else renameSync(aside, turn)
    return true
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code !== 'ENOENT') throw cause
    return true // ended by itself
  }
}

function write(path: string, reports: readonly LedgerFacts[], signer: Signer | undefined): string {
  const isNew = !existsSync(path)
  const file = isNew ? openSync(path, 'a+') : reopened(path)
  try {
    if (fstatSync(file).size > MOST_LEDGER_BYTES) throw cannotWrite(path, 'EFBIG')
    const bytes = readFileSync(file)
    const whole = bytes.subarray(0, bytes.lastIndexOf(0x0a) + 1)
    const ledger = walkLedger(whole.toString('utf8'), path)
    const fault = ledger.findings.find((f) => f.severity === 'broken')
    if (fault) throw cannotWrite(path, fault.code)
    if (whole.length < bytes.length) ftruncateSync(file, whole.length)
    const { lines, last } = newLines(ledger, reports, signer)
    try {
      writeFileSync(file, lines)
      fsyncSync(file)
    } catch (cause) {
      ftruncateSync(file, whole.length) // all the lines of a call, or none
      throw cause
    }
    if (isNew && lines === '') rmSync(path, { force: true }) // nothing to enter is no ledger
    return last
  } catch (cause) {
    if (isNew) rmSync(path, { force: true })
    throw cause
  } finally {
    closeSync(file)
  }
}

/** A ledger that is there already: a pipe or a device is none. */
function reopened(path: string): number {
  closeSync(openRegularSync(path))
  return openSync(path, 'a+')
}

function newLines(
  ledger: ReturnType<typeof walkLedger>,
  reports: readonly LedgerFacts[],
  signer: Signer | undefined,
): { lines: string; last: string } {
  const newest = new Map(ledger.newest)
  let last = { n: ledger.n, digest: ledger.digest }
  let lines = ''
  for (const facts of reports) {
    if (newest.get(facts.work_order) === facts.manifest) continue
    const line = ledgerLine(last, facts, signer)
    lines += `${line}\n`
    newest.set(facts.work_order, facts.manifest)
    last = { n: last.n + 1, digest: lineDigest(line) }
  }
  return { lines, last: last.digest }
}
