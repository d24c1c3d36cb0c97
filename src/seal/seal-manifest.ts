import canonicalize from 'canonicalize'
import { sha256 } from '../maths/sha256.ts'
import { broken, noted, type SealFinding } from './finding.ts'
import { fingerprintOf, isSignatureOf, type Signer } from './signing-key.ts'

/** Last member of a manifest: the digest of the manifest without it, and where the shop signs, the signature. */
export interface Seal {
  /** How the digest was taken: of canonical JSON. Without it: of the text as written, as older outputs have it. */
  form?: typeof CANONICAL
  /** SHA-256 of the manifest without its seal. */
  sha256: string
  /** Digest of the list of the record's parts, by which a redacted copy can be checked; signed manifests only. */
  record?: string
  public_key?: string
  signature?: string
}

/** @source RFC 8785, JSON Canonicalization Scheme: what anybody's program makes of the same JSON, byte for byte */
const CANONICAL = 'RFC 8785'
const END = '\n}\n'
const MARK = ',\n  "seal": '

/** What is signed: both digests, under a name that no other text of ours begins with. */
export const sealedText = (seal: Pick<Seal, 'sha256' | 'record'>): string =>
  `burnline seal 1\nmanifest ${seal.sha256}\nrecord ${seal.record ?? ''}\n`

/**
 * Adds the seal to a manifest as its last member.
 *
 * @param text     JSON object with two-space indent and one line end at its end
 * @param signing  with the digest of the record's parts; without it the seal shows changes, but not who made it
 */
export function sealManifest(text: string, signing?: { signer: Signer; record: string }): string {
  if (!text.endsWith(END)) throw new Error('a manifest ends with its brace on a line of its own')
  const digest = sha256(canonical(text))
  const seal: Seal = {
    form: CANONICAL,
    sha256: digest,
    ...(signing && {
      record: signing.record,
      public_key: signing.signer.publicKey,
      signature: signing.signer.sign(sealedText({ sha256: digest, record: signing.record })),
    }),
  }
  return text.slice(0, -END.length) + sealMember(seal)
}

const canonical = (text: string): string => canonicalize(JSON.parse(text))!

const sealMember = (seal: Seal): string =>
  `${MARK}${JSON.stringify(seal, null, 2).replaceAll('\n', '\n  ')}${END}`

/** A sealed manifest taken apart, undefined where it is not in exactly the form it is written in. */
export function readSeal(text: string): { body: string; seal: Seal } | undefined {
  const at = text.lastIndexOf(MARK)
  if (at < 0) return undefined
  try {
    const { seal } = JSON.parse(`{${text.slice(at + 1)}`) as { seal: Seal }
    const known = Object.entries(seal).every(([name, value]) => (FIELDS[name] ?? /$^/).test(value as string))
    const body = text.slice(0, at) + END
    return known && sealMember(seal) === text.slice(at) ? { body, seal } : undefined
  } catch {
    return undefined
  }
}

const DIGEST = /^[0-9a-f]{64}$/
const FIELDS: Readonly<Record<string, RegExp>> = {
  form: new RegExp(`^${CANONICAL}$`),
  sha256: DIGEST,
  record: DIGEST,
  public_key: DIGEST,
  signature: /^[0-9a-f]{128}$/,
}

/** Whether the digest is that of the manifest; a canonical one says nothing of how it was written, so that is held too. */
function holds(body: string, seal: Seal): boolean {
  if (seal.form === undefined) return sha256(body) === seal.sha256
  try {
    const asWritten = `${JSON.stringify(JSON.parse(body), null, 2)}\n` === body
    return asWritten && sha256(canonical(body)) === seal.sha256
  } catch {
    return false // no JSON any more
  }
}

/**
 * Checks a manifest's text against its own seal: no byte of it can differ without a finding.
 *
 * @param publicKey  the shop's key (hex), known from elsewhere; without it a signature is checked against the key beside it
 */
export function checkManifestSeal(text: string, file: string, publicKey?: string): SealFinding[] {
  const sealed = readSeal(text)
  if (!sealed) return [broken('manifest-form', file)]
  if (!holds(sealed.body, sealed.seal)) return [broken('manifest-changed', file)]
  return signatureFindings(sealed.seal, { file, text: sealedText(sealed.seal) }, publicKey)
}

/** What a signature says: whose it is, that it is wrong, or that there is none. */
export function signatureFindings(
  by: { public_key?: string; signature?: string },
  signed: { file: string; text: string },
  publicKey?: string,
): SealFinding[] {
  const { file, text } = signed
  const wanted = publicKey === undefined ? '' : fingerprintOf(publicKey)
  if (by.signature === undefined || by.public_key === undefined) {
    if (by.signature !== by.public_key) return [broken('signature-invalid', file)]
    return [
      publicKey === undefined ? noted('unsigned', file) : broken('other-key', file, { wanted, found: '' }),
    ]
  }
  if (!isSignatureOf(text, by.signature, by.public_key)) return [broken('signature-invalid', file)]
  const found = fingerprintOf(by.public_key)
  if (publicKey !== undefined && publicKey !== by.public_key)
    return [broken('other-key', file, { wanted, found })]
  return [noted('signed', file, { fingerprint: found })]
}
