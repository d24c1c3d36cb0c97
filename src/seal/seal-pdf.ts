import { createHash } from 'node:crypto'
import { sha256 } from '../maths/sha256.ts'
import { checkCms, signCms } from './cms.ts'
import { broken, noted, type SealFinding } from './finding.ts'
import { signatureFindings } from './seal-manifest.ts'
import { findSlot, outside, rangeText, slotText, type Slot } from './signature-slot.ts'
import { fingerprintOf, type Signer } from './signing-key.ts'

/*
 * A report can be checked alone, by two comment lines right after the file's header: the SHA-256 of all other bytes, and
 * the shop's public key with its signature of that digest; zeros where the shop does not sign. They have a fixed length,
 * so they are written blank first and filled in when the file is done. A signature that readers show (cms.ts) covers
 * these lines, so its slot is left out of the seal's digest; what may stand in it is fixed to the byte.
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
const linesOf = (pdf: Uint8Array): string =>
  Buffer.from(pdf.subarray(HEADER_BYTES, HEADER_BYTES + SEAL_BYTES)).toString('latin1')

function digestOf(pdf: Uint8Array, slot: Slot | undefined): string {
  const head = pdf.subarray(0, HEADER_BYTES)
  const body = HEADER_BYTES + SEAL_BYTES
  return slot === undefined
    ? sha256(head, pdf.subarray(body))
    : sha256(head, pdf.subarray(body, slot.from), pdf.subarray(slot.to))
}

const rangeDigest = (pdf: Uint8Array, slot: Slot): Buffer => {
  const hash = createHash('sha256')
  for (const part of outside(pdf, slot)) hash.update(part)
  return hash.digest()
}

/**
 * A report with its seal filled in, and its slot where it has one; the bytes given are not changed.
 *
 * @throws Error for a file without blank seal lines, or with a slot and no certificate to fill it
 */
export function sealPdf(pdf: Uint8Array, signer?: Signer): Uint8Array {
  if (linesOf(pdf) !== `${BLANK_SEAL.join('\n')}\n`)
    throw new Error('the report has no blank seal to fill in')
  const sealed = Uint8Array.from(pdf)
  const write = (text: string, at: number) => sealed.set(Buffer.from(text, 'latin1'), at)
  const slot = findSlot(sealed)
  if (slot) write(rangeText(slot, sealed.length), slot.rangeFrom)
  const digest = digestOf(sealed, slot)
  const signature =
    signer === undefined
      ? `${NO_KEY} ${NO_SIGNATURE}`
      : `${signer.publicKey} ${signer.sign(signedText(digest))}`
  write(`${DIGEST_WORD} ${digest}\n${SIGNATURE_WORD} ${signature}\n`, HEADER_BYTES)
  if (!slot) return sealed
  if (!signer?.certified) throw new Error('the report has a signature slot and no certificate to fill it')
  const { certificate, key } = signer.certified
  const filled = slotText(signCms(rangeDigest(sealed, slot), certificate, key))
  if (filled.length !== slot.to - slot.from) throw new Error('the signature slot is of another length')
  write(filled, slot.from)
  return sealed
}

/** Checks a report against its own seal and signature: no byte of it can differ without a finding. */
export function checkPdfSeal(pdf: Uint8Array, file: string, publicKey?: string): SealFinding[] {
  if (Buffer.from(pdf.subarray(0, 5)).toString('latin1') !== '%PDF-') return [broken('not-a-pdf', file)]
  const { digest, key, signature } = sealOfPdf(pdf) ?? {}
  if (digest === undefined) return [broken('pdf-unsealed', file)]
  const slot = slotOf(pdf)
  if (slot === 'unreadable' || digestOf(pdf, slot) !== digest) return [broken('pdf-changed', file)]
  return [
    ...signatureFindings(
      key === undefined ? {} : { public_key: key, signature: signature! },
      { file, text: signedText(digest) },
      publicKey,
    ),
    ...(slot ? slotFindings(pdf, slot, { file, key }) : []),
  ]
}

/** What a report's seal lines say, undefined where they are none: the digest, and key and signature where it is signed. */
export function sealOfPdf(
  pdf: Uint8Array,
): { digest: string; key: string | undefined; signature: string | undefined } | undefined {
  const [, digest, key, signature] = FILLED.exec(linesOf(pdf)) ?? []
  if (digest === undefined) return undefined
  const blank = key === NO_KEY && signature === NO_SIGNATURE
  return { digest, key: blank ? undefined : key, signature: blank ? undefined : signature }
}

/** Most a signature with its certificate takes, bytes: one of RSA 3072 some 2 500. */
const MOST_CMS_BYTES = 2 ** 16

const checked = (cms: Buffer, digest: Buffer): ReturnType<typeof checkCms> =>
  cms.length > MOST_CMS_BYTES ? undefined : checkCms(cms, digest)

/** SHA-256 of the certificate a report's slot was signed with; undefined where it has no slot, or a broken one. */
export function certificateOfPdf(pdf: Uint8Array): string | undefined {
  const slot = slotOf(pdf)
  return slot === undefined || slot === 'unreadable'
    ? undefined
    : checked(cmsIn(pdf, slot), rangeDigest(pdf, slot))?.fingerprint
}

function slotOf(pdf: Uint8Array): Slot | undefined | 'unreadable' {
  try {
    return findSlot(pdf)
  } catch {
    return 'unreadable' // not written by this program, or damaged
  }
}

const cmsIn = (pdf: Uint8Array, { from, to }: Slot): Buffer =>
  Buffer.from(Buffer.from(pdf.subarray(from + 1, to - 1)).toString('latin1'), 'hex')

/** The signature must be exactly the one of the bytes outside its slot, by a certificate that names the seal's key. */
function slotFindings(
  pdf: Uint8Array,
  slot: Slot,
  { file, key }: { file: string; key: string | undefined },
): SealFinding[] {
  const text = (from: number, to: number) => Buffer.from(pdf.subarray(from, to)).toString('latin1')
  const cms = cmsIn(pdf, slot)
  const certificate = checked(cms, rangeDigest(pdf, slot))
  const exact =
    text(slot.rangeFrom, slot.rangeTo) === rangeText(slot, pdf.length) &&
    text(slot.from, slot.to) === slotText(cms)
  if (!certificate || !exact) return [broken('pdf-signature-invalid', file)]
  if (key === undefined || certificate.sealFingerprint !== fingerprintOf(key))
    return [
      broken('certificate-other-key', file, {
        found: certificate.sealFingerprint ?? '',
        wanted: key === undefined ? '' : fingerprintOf(key),
      }),
    ]
  return [noted('certified', file, { fingerprint: certificate.fingerprint })]
}
