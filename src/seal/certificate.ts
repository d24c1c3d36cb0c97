import { createHash, createPrivateKey, createPublicKey, randomBytes, sign, type KeyObject } from 'node:crypto'
import { sha256 } from '../maths/sha256.ts'
import {
  bigInteger,
  bits,
  bool,
  contentOf,
  derOf,
  empty,
  integer,
  nodeOf,
  octets,
  OID,
  oid,
  partsOf,
  sequence,
  setOf,
  tagged,
  time,
  utf8,
  type Node,
} from './asn1.ts'

/** What a self-made certificate says. */
export interface CertificateFacts {
  /** Name shown as the signer. */
  name: string
  /** Fingerprint of the shop's seal key, so that the certificate names the other key. */
  sealFingerprint: string
  from: Date
  until: Date
}

const SERIAL_BYTES = 16
const RSA_ALGORITHM = (): Node => sequence(oid(OID.sha256WithRsa), empty())

/**
 * A certificate a shop makes for itself: it says which key signs, vouched for by nobody else. CA:TRUE and keyCertSign let
 * a reader that trusts it once show its signatures as trusted.
 *
 * @param pem  private RSA key, PKCS #8
 * @returns DER
 * @source RFC 5280 (X.509 version 3); the two keys of a shop name each other: this one by its organisational unit
 */
export function makeCertificate(pem: string, facts: CertificateFacts): Buffer {
  const key = createPrivateKey(pem)
  const spki = createPublicKey(key).export({ format: 'der', type: 'spki' })
  // Any name of the key will do (RFC 5280, 4.2.1.2); this one is cut from its digest, as RFC 7093, 2 (4) does.
  const keyId = createHash('sha256').update(spki).digest().subarray(0, 20)
  const name = sequence(
    setOf(sequence(oid(OID.organizationalUnit), utf8(facts.sealFingerprint))),
    setOf(sequence(oid(OID.commonName), utf8(facts.name))),
  )
  const tbs = sequence(
    tagged(0, integer(2)),
    bigInteger(positive(randomBytes(SERIAL_BYTES))),
    RSA_ALGORITHM(),
    name,
    sequence(time(facts.from), time(facts.until)),
    name,
    nodeOf(spki),
    tagged(
      3,
      sequence(
        extension(OID.basicConstraints, true, sequence(bool(true))),
        // digitalSignature, nonRepudiation and keyCertSign: bits 0, 1 and 5
        extension(OID.keyUsage, true, bits(Uint8Array.of(0b1100_0100), 2)),
        extension(OID.subjectKeyIdentifier, false, octets(keyId)),
      ),
    ),
  )
  return derOf(sequence(tbs, RSA_ALGORITHM(), bits(sign('sha256', derOf(tbs), key))))
}

const extension = (id: string, critical: boolean, value: Node): Node =>
  sequence(oid(id), ...(critical ? [bool(true)] : []), octets(derOf(value)))

/** A serial number is a positive integer without superfluous bytes (RFC 5280, 4.1.2.2). */
function positive(bytes: Buffer): Buffer {
  bytes[0] = (bytes[0]! & 0x3f) | 0x40
  return bytes
}

/** A certificate as text (RFC 7468). */
export const pemOf = (der: Uint8Array): string =>
  `-----BEGIN CERTIFICATE-----\n${Buffer.from(der)
    .toString('base64')
    .match(/.{1,64}/g)!
    .join('\n')}\n-----END CERTIFICATE-----\n`

/** What a certificate holds that a signature and its check need. */
export interface ReadCertificate {
  der: Buffer
  /** SHA-256 of its bytes, lower-case hex: how the record names it. */
  fingerprint: string
  issuer: Node
  serial: Node
  publicKey: KeyObject
  /** The seal key it names, if it does. */
  sealFingerprint: string | undefined
  name: string | undefined
}

/** @throws Error for bytes that are no X.509 certificate of an RSA key */
export function readCertificate(der: Uint8Array): ReadCertificate {
  const [tbs] = partsOf(nodeOf(der))
  const [, serial, , issuer, , subject, spki] = partsOf(tbs)
  if (!serial || !issuer || !subject || !spki) throw new Error('a certificate lacks a part')
  const publicKey = createPublicKey({ key: derOf(spki), format: 'der', type: 'spki' })
  if (publicKey.asymmetricKeyType !== 'rsa')
    throw new Error(`a key of type ${publicKey.asymmetricKeyType}, not RSA`)
  const named = new Map(
    partsOf(subject).map((part) => {
      const [id, value] = partsOf(partsOf(part)[0])
      return [derOf(id!).toString('hex'), contentOf(value).toString('utf8')]
    }),
  )
  const nameOf = (id: string) => named.get(derOf(oid(id)).toString('hex'))
  return {
    der: Buffer.from(der),
    fingerprint: sha256(der),
    issuer,
    serial,
    publicKey,
    sealFingerprint: nameOf(OID.organizationalUnit),
    name: nameOf(OID.commonName),
  }
}
