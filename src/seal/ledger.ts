import { z } from 'zod'
import { sha256 } from '../maths/sha256.ts'
import { broken, noted, type SealFinding } from './finding.ts'
import { fingerprintOf, isSignatureOf, type Signer } from './signing-key.ts'

/** What one line of a ledger says of a report. */
export interface LedgerFacts {
  work_order: string
  /** SHA-256 of manifest.json as stored. */ manifest: string
}

const digest = z.string().regex(/^[0-9a-f]{64}$/)
const entrySchema = z.strictObject({
  n: z.int().positive(),
  previous: digest,
  work_order: z.string(),
  manifest: digest,
  public_key: digest.optional(),
  signature: z
    .string()
    .regex(/^[0-9a-f]{128}$/)
    .optional(),
})
type LedgerEntry = z.infer<typeof entrySchema>

/** Largest ledger that is read, bytes: some 300 000 reports. Most a line may take, as its text. */
export const MOST_LEDGER_BYTES = 128 * 2 ** 20
const MOST_LINE = 2 ** 12
/** Faulty lines named before the rest is left unread. */
const MOST_FAULTS = 100

/** Stands for the line before the first. */
export const LEDGER_START = '0'.repeat(64)

/** Digest by which the next line names this one: of its text without the line end. */
export const lineDigest = (line: string): string => sha256(line)

/** The line that follows `last`, without its line end. */
export function ledgerLine(last: { n: number; digest: string }, facts: LedgerFacts, signer?: Signer): string {
  const entry = {
    n: last.n + 1,
    previous: last.digest,
    work_order: facts.work_order,
    manifest: facts.manifest,
  }
  const signed =
    signer === undefined
      ? entry
      : { ...entry, public_key: signer.publicKey, signature: signer.sign(entryText(entry)) }
  return JSON.stringify(signed)
}

const entryText = (entry: LedgerFacts & { n: number; previous: string }): string =>
  `burnline ledger 1\n${JSON.stringify([entry.n, entry.previous, entry.work_order, entry.manifest])}\n`

/** A ledger walked from its first line: where it stands, the newest manifest of each work order, and what is wrong. */
export interface WalkedLedger {
  n: number
  digest: string
  newest: ReadonlyMap<string, string>
  findings: readonly SealFinding[]
}

/**
 * Walks the chain. A line that was changed, taken out, put in or moved breaks it at that line; lines cut off at the end
 * show only against a digest noted elsewhere.
 *
 * @param text  the whole file
 * @param head  digest of a line noted earlier: it must be there
 */
export function walkLedger(
  text: string,
  file: string,
  { publicKey, head }: { publicKey?: string; head?: string } = {},
): WalkedLedger {
  const findings: SealFinding[] = []
  const newest = new Map<string, string>()
  let last = { n: 0, digest: LEDGER_START }
  let hasHead = head === undefined || head === LEDGER_START
  for (const { line, ended } of linesOf(text)) {
    if (!ended) {
      findings.push(broken('ledger-torn', file, { line: last.n + 1 }))
      break
    }
    const entry = line.length > MOST_LINE ? undefined : entryOf(line)
    if (!entry) {
      findings.push(broken('ledger-line', file, { line: last.n + 1 }))
      break
    }
    if (entry.n !== last.n + 1 || entry.previous !== last.digest) {
      findings.push(broken('ledger-chain', file, { line: last.n + 1 }))
      break
    }
    findings.push(...signatureOfEntry(entry, file, publicKey))
    newest.set(entry.work_order, entry.manifest)
    last = { n: entry.n, digest: lineDigest(line) }
    hasHead ||= last.digest === head
    if (findings.length >= MOST_FAULTS) break
  }
  if (head !== undefined && !hasHead) findings.push(broken('ledger-head', file, { head }))
  return { ...last, newest, findings }
}

/** Lines as they are come to, the last of them perhaps without its line end. */
function* linesOf(text: string): Generator<{ line: string; ended: boolean }> {
  let from = 0
  for (let end = text.indexOf('\n'); end >= 0; end = text.indexOf('\n', from)) {
    yield { line: text.slice(from, end), ended: true }
    from = end + 1
  }
  if (from < text.length) yield { line: text.slice(from), ended: false }
}

/** The entry of a line written exactly as `ledgerLine` writes it. */
function entryOf(line: string): LedgerEntry | undefined {
  try {
    const read = entrySchema.safeParse(JSON.parse(line))
    return read.success && JSON.stringify(read.data) === line ? read.data : undefined
  } catch {
    return undefined
  }
}

function signatureOfEntry(entry: LedgerEntry, file: string, publicKey: string | undefined): SealFinding[] {
  const { public_key: key, signature, n } = entry
  if (key === undefined && signature === undefined && publicKey === undefined) return []
  const right =
    key !== undefined && signature !== undefined && isSignatureOf(entryText(entry), signature, key)
  if (!right && key !== undefined) return [broken('signature-invalid', `${file}:${n}`)]
  if (publicKey !== undefined && key !== publicKey) {
    return [
      broken('other-key', `${file}:${n}`, {
        wanted: fingerprintOf(publicKey),
        found: key === undefined ? '' : fingerprintOf(key),
      }),
    ]
  }
  return []
}

/**
 * Holds a ledger against the reports that stand: a report that is gone, or is another than the newest entered.
 *
 * @param standing  work order -> SHA-256 of its manifest.json
 */
export function compareWithLedger(
  ledger: WalkedLedger,
  standing: ReadonlyMap<string, string>,
): SealFinding[] {
  const gone = [...ledger.newest]
    .filter(([workOrder, manifest]) => standing.get(workOrder) !== manifest)
    .map(([workOrder]) =>
      broken(standing.has(workOrder) ? 'ledger-replaced' : 'ledger-deleted', workOrder, { workOrder }),
    )
  const unlisted = [...standing.keys()]
    .filter((workOrder) => !ledger.newest.has(workOrder))
    .map((workOrder) => noted('ledger-unlisted', workOrder, { workOrder }))
  return [...gone, ...unlisted].sort((a, b) => (a.file < b.file ? -1 : 1))
}
