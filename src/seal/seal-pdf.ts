import { sha256 } from '../maths/sha256.ts'
import { broken, type SealFinding } from './finding.ts'
import { signatureFindings } from './seal-manifest.ts'
import type { Signer } from './signing-key.ts'

/*
 * A report can be checked alone, by two comment lines right after the file's header: the SHA-256 of all other bytes, and
 * the shop's public key with its signature of that digest; zeros where the shop does not sign. They have a fixed length,
 * so they are written blank first and filled in when the file is done.
 */
const HEADER_BYTES = '%PDF-1.7\n%....\n'.length
const DIGEST_WORD = '%burnline-sha256'
const SIGNATURE_WORD = '%burnline-ed25519'
const NO_KEY = '0'.repeat(64)
const NO_SIGNATURE = '0'.repeat(128)

/** The two lines before they are filled in, without line ends. */
export const BLANK_SEAL: readonly [string, string] = [
  `${DIGEST_WORD} ${NO_KEY}`,
  `${SIGNATURE_WORD} ${NO_KEY} ${NO_SIGNATURE}`,
]
const SEAL_BYTES = BLANK_SEAL[0].length + BLANK_SEAL[1].length + 2
const FILLED = new RegExp(
  `^${DIGEST_WORD} ([0-9a-f]{64})\\n${SIGNATURE_WORD} ([0-9a-f]{64}) ([0-9a-f]{128})\\n$`,
)

const signedText = (digest: string): string => `burnline report 1\nsha256 ${digest}\n`
const digestOf = (pdf: Uint8Array): string =>
  sha256(pdf.subarray(0, HEADER_BYTES), pdf.subarray(HEADER_BYTES + SEAL_BYTES))
const linesOf = (pdf: Uint8Array): string =>
  Buffer.from(pdf.subarray(HEADER_BYTES, HEADER_BYTES + SEAL_BYTES)).toString('latin1')

/**
 * A report with its seal filled in; the bytes given are not changed.
 *
 * @throws Error for a file without blank seal lines
 */
export function sealPdf(pdf: Uint8Array, signer?: Signer): Uint8Array {
  if (linesOf(pdf) !== `${BLANK_SEAL.join('\n')}\n`)
    throw new Error('the report has no blank seal to fill in')
  const digest = digestOf(pdf)
  const signature =
    signer === undefined
      ? `${NO_KEY} ${NO_SIGNATURE}`
      : `${signer.publicKey} ${signer.sign(signedText(digest))}`
  const sealed = Uint8Array.from(pdf)
  sealed.set(
    Buffer.from(`${DIGEST_WORD} ${digest}\n${SIGNATURE_WORD} ${signature}\n`, 'latin1'),
    HEADER_BYTES,
  )
  return sealed
}

/** Checks a report against its own seal: no byte of it can differ without a finding. */
export function checkPdfSeal(pdf: Uint8Array, file: string, publicKey?: string): SealFinding[] {
  if (Buffer.from(pdf.subarray(0, 5)).toString('latin1') !== '%PDF-') return [broken('not-a-pdf', file)]
  const [, digest, key, signature] = FILLED.exec(linesOf(pdf)) ?? []
  if (digest === undefined) return [broken('pdf-unsealed', file)]
  if (digestOf(pdf) !== digest) return [broken('pdf-changed', file)]
  const blank = key === NO_KEY && signature === NO_SIGNATURE
  return signatureFindings(
    blank ? {} : { public_key: key!, signature: signature! },
    { file, text: signedText(digest) },
    publicKey,
  )
}
