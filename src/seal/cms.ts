import { createHash, sign, verify, type KeyObject } from 'node:crypto'
import { readCertificate, type ReadCertificate } from './certificate.ts'
import {
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
  sorted,
  tagged,
  type Node,
} from './asn1.ts'

/*
 * A detached signature in the form readers of PDF files check: CMS SignedData (RFC 5652) with the signed attributes that
 * PAdES baseline B-B asks for (ETSI EN 319 142-1, 6.3; EN 319 122-1): content type, message digest and the signing
 * certificate's digest. No time in it: the stated date stands in the PDF. RSA with PKCS #1 v1.5 has no randomness, so the
 * same report gives the same bytes.
 */

const ATTRIBUTES = 0xa0 // how the set is tagged inside the signer's part; signed is the same set under SET OF

const attribute = (id: string, value: Node): Node => sequence(oid(id), setOf(value))

const signedAttributes = (digest: Uint8Array, certificate: ReadCertificate): Node[] =>
  sorted([
    attribute(OID.contentType, oid(OID.data)),
    attribute(OID.messageDigest, octets(digest)),
    // ESSCertIDv2 with its default digest, SHA-256, left out (RFC 5035, 3)
    attribute(
      OID.signingCertificateV2,
      sequence(sequence(sequence(octets(createHash('sha256').update(certificate.der).digest())))),
    ),
  ])

const textToSign = (attributes: Node[]): Buffer => derOf(setOf(...attributes))

function assemble(certificate: ReadCertificate, attributes: Node[], signature: Uint8Array): Buffer {
  const sha256Algorithm = sequence(oid(OID.sha256))
  const signer = sequence(
    integer(1),
    sequence(certificate.issuer, certificate.serial),
    sha256Algorithm,
    tagged(ATTRIBUTES & 0x1f, ...attributes),
    sequence(oid(OID.sha256WithRsa), empty()),
    octets(signature),
  )
  return derOf(
    sequence(
      oid(OID.signedData),
      tagged(
        0,
        sequence(
          integer(1),
          setOf(sha256Algorithm),
          sequence(oid(OID.data)),
          tagged(0, nodeOf(certificate.der)),
          setOf(signer),
        ),
      ),
    ),
  )
}

/** The signature of some bytes. @param digest  their SHA-256 @returns DER */
export function signCms(digest: Uint8Array, certificate: ReadCertificate, key: KeyObject): Buffer {
  const attributes = signedAttributes(digest, certificate)
  return assemble(certificate, attributes, sign('sha256', textToSign(attributes), key))
}

/** How long a signature with a certificate and key will be, bytes. */
export const cmsBytes = ({ certificate, key }: { certificate: ReadCertificate; key: KeyObject }): number =>
  signCms(new Uint8Array(32), certificate, key).length

/**
 * Checks a signature by building it anew from its own certificate and signature value: no byte of it is left unchecked.
 *
 * @returns the certificate in it, or undefined where it is not, byte for byte, a signature of these bytes
 */
export function checkCms(cms: Uint8Array, digest: Uint8Array): ReadCertificate | undefined {
  try {
    const [, wrapped] = partsOf(nodeOf(cms))
    const [, , , certificates, signers] = partsOf(partsOf(wrapped)[0])
    const certificate = readCertificate(derOf(partsOf(certificates)[0]!))
    const signature = contentOf(partsOf(partsOf(signers)[0])[5])
    const attributes = signedAttributes(digest, certificate)
    const right =
      assemble(certificate, attributes, signature).equals(cms) &&
      verify('sha256', textToSign(attributes), certificate.publicKey, signature)
    return right ? certificate : undefined
  } catch {
    return undefined // not written by this program, or damaged
  }
}
