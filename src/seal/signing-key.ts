import { createHmac, createPrivateKey, createPublicKey, sign, verify, type KeyObject } from 'node:crypto'
import { sha256 } from '../maths/sha256.ts'
import { readCertificate, type ReadCertificate } from './certificate.ts'

/** A shop's key, ready to sign. */
export interface Signer {
  /** The public key, 32 bytes in lower-case hex. */
  publicKey: string
  /** Its fingerprint, as the report prints it. */
  fingerprint: string
  /** Signature of a text (UTF-8), 64 bytes in lower-case hex. Ed25519 has no randomness: the same text, the same signature. */
  sign(text: string): string
  /** 16 bytes in hex that nobody without the private key can tell, the same for the same purpose. */
  secret(purpose: string): string
  /** The second key, whose signature readers of PDF files show, where the key file holds one. */
  certified?: { certificate: ReadCertificate; key: KeyObject }
}

/** DER of an ed25519 public key is this prefix and its 32 bytes (RFC 8410, 4). */
const SPKI_PREFIX = Buffer.from('302a300506032b6570032100', 'hex')
const SECRET_BYTES = 16

/**
 * The private keys of a PEM file (PKCS #8): the ed25519 key of the seal, and behind it, in files made since there is one,
 * an RSA key with its certificate.
 *
 * @throws Error for a text that is no private ed25519 key, or whose second key and certificate do not belong together
 * @source RFC 8032 (Ed25519), RFC 8410 (its keys in PKCS #8)
 */
export function signerOf(pem: string): Signer {
  const blocks = pemBlocks(pem)
  const key = createPrivateKey(blocks.find(({ what }) => what.endsWith('PRIVATE KEY'))?.text ?? pem)
  if (key.asymmetricKeyType !== 'ed25519')
    throw new Error(`a key of type ${key.asymmetricKeyType}, not ed25519`)
  const publicKey = hexOf(createPublicKey(key))
  const seed = Buffer.from((key.export({ format: 'jwk' }) as { d: string }).d, 'base64url')
  return {
    publicKey,
    fingerprint: fingerprintOf(publicKey),
    sign: (text) => sign(null, Buffer.from(text, 'utf8'), key).toString('hex'),
    secret: (purpose) =>
      createHmac('sha256', seed)
        .update(`burnline\0${purpose}`)
        .digest('hex')
        .slice(0, 2 * SECRET_BYTES),
    ...certifiedOf(blocks, fingerprintOf(publicKey)),
  }
}

/** The signer of a call's options, which carry the key as text from process to process; undefined where it signs nothing. */
export const signerFor = ({ signingKeyPem }: { signingKeyPem?: string | undefined }): Signer | undefined =>
  signingKeyPem === undefined ? undefined : signerOf(signingKeyPem)

interface PemBlock {
  what: string
  text: string
}
const pemBlocks = (pem: string): PemBlock[] =>
  [...pem.matchAll(/-----BEGIN ([A-Z ]+)-----[^-]+-----END \1-----\n?/g)].map(([text, what]) => ({
    what: what!,
    text,
  }))

function certifiedOf(blocks: readonly PemBlock[], sealFingerprint: string): Pick<Signer, 'certified'> {
  const [, rsa] = blocks.filter(({ what }) => what.endsWith('PRIVATE KEY'))
  const stored = blocks.find(({ what }) => what === 'CERTIFICATE')
  if (!rsa && !stored) return {}
  if (!rsa || !stored)
    throw new Error('a second key without its certificate, or a certificate without its key')
  const key = createPrivateKey(rsa.text)
  const certificate = readCertificate(Buffer.from(stored.text.replace(/-----[^-]+-----|\s/g, ''), 'base64'))
  if (!createPublicKey(key).equals(certificate.publicKey))
    throw new Error('a certificate of another key than the one beside it')
  if (certificate.sealFingerprint !== sealFingerprint)
    throw new Error('a certificate that names another seal key than the one beside it')
  return { certified: { certificate, key } }
}

/** The public key of a PEM file, public or private, as 32 bytes in hex. @throws Error for anything else */
export function publicKeyOf(pem: string): string {
  const key = createPublicKey(pem)
  if (key.asymmetricKeyType !== 'ed25519')
    throw new Error(`a key of type ${key.asymmetricKeyType}, not ed25519`)
  return hexOf(key)
}

const hexOf = (key: KeyObject): string =>
  key.export({ format: 'der', type: 'spki' }).subarray(SPKI_PREFIX.length).toString('hex')
const derOf = (publicKey: string): Buffer => Buffer.concat([SPKI_PREFIX, Buffer.from(publicKey, 'hex')])

/** SHA-256 of the public key as DER (SubjectPublicKeyInfo), lower-case hex. */
export const fingerprintOf = (publicKey: string): string => sha256(derOf(publicKey))

/** Whether a signature (hex) is that of a text under a public key (hex). Anything malformed is not. */
export function isSignatureOf(text: string, signature: string, publicKey: string): boolean {
  if (!/^[0-9a-f]{128}$/.test(signature) || !/^[0-9a-f]{64}$/.test(publicKey)) return false
  try {
    const key = createPublicKey({ key: derOf(publicKey), format: 'der', type: 'spki' })
    return verify(null, Buffer.from(text, 'utf8'), key, Buffer.from(signature, 'hex'))
  } catch {
    return false // 32 bytes that are no point of the curve
  }
}
