import * as asn1 from 'asn1js'

/*
 * The few forms of ASN.1 that a certificate and a signature need, written as DER (ITU-T X.690) by asn1js: only its
 * building blocks are used, so that what is written is the same bytes on every machine.
 */

/** One node of a structure. */
export type Node = asn1.BaseBlock

export const OID = {
  sha256: '2.16.840.1.101.3.4.2.1',
  rsaEncryption: '1.2.840.113549.1.1.1',
  sha256WithRsa: '1.2.840.113549.1.1.11',
  data: '1.2.840.113549.1.7.1',
  signedData: '1.2.840.113549.1.7.2',
  contentType: '1.2.840.113549.1.9.3',
  messageDigest: '1.2.840.113549.1.9.4',
  signingCertificateV2: '1.2.840.113549.1.9.16.2.47',
  commonName: '2.5.4.3',
  organizationalUnit: '2.5.4.11',
  subjectKeyIdentifier: '2.5.29.14',
  keyUsage: '2.5.29.15',
  basicConstraints: '2.5.29.19',
} as const

export const sequence = (...value: Node[]): Node => new asn1.Sequence({ value })
export const oid = (value: string): Node => new asn1.ObjectIdentifier({ value })
export const integer = (value: number): Node => new asn1.Integer({ value })
export const bigInteger = (bytes: Uint8Array): Node => new asn1.Integer({ valueHex: copyOf(bytes) })
export const octets = (bytes: Uint8Array): Node => new asn1.OctetString({ valueHex: copyOf(bytes) })
export const bits = (bytes: Uint8Array, unusedBits = 0): Node =>
  new asn1.BitString({ valueHex: copyOf(bytes), unusedBits })
export const utf8 = (value: string): Node => new asn1.Utf8String({ value })
export const bool = (value: boolean): Node => new asn1.Boolean({ value })
export const empty = (): Node => new asn1.Null()

/** Content under a context tag that wraps it (explicit), or stands in its place (implicit set). */
export const tagged = (tagNumber: number, ...value: Node[]): Node =>
  new asn1.Constructed({ idBlock: { tagClass: 3, tagNumber }, value })

/** A SET OF, its members in the order DER asks for: by their bytes (X.690, 11.6). */
export const setOf = (...members: Node[]): Node => new asn1.Set({ value: sorted(members) })
export const sorted = (members: Node[]): Node[] =>
  members.toSorted((a, b) => Buffer.compare(derOf(a), derOf(b)))

/** A date as certificates want it: two-digit years before 2050, four digits from then on (RFC 5280, 4.1.2.5). */
export const time = (date: Date): Node =>
  date.getUTCFullYear() < 2050
    ? new asn1.UTCTime({ valueDate: date })
    : new asn1.GeneralizedTime({ valueDate: date })

export const derOf = (node: Node): Buffer => Buffer.from(node.toBER(false))

/** @throws Error for bytes that are not one structure and nothing behind it */
export function nodeOf(der: Uint8Array): Node {
  const read = asn1.fromBER(copyOf(der))
  if (read.offset !== der.length) throw new Error('bytes that are no single ASN.1 structure')
  return read.result
}

/** The parts of a constructed node. @throws Error for one that has none */
export function partsOf(node: Node | undefined): readonly Node[] {
  const { value } = (node?.valueBlock ?? {}) as { value?: unknown }
  if (!Array.isArray(value)) throw new Error('a structure without parts')
  return value as Node[]
}

/** What a primitive node holds, without its tag and length. @throws Error for a constructed one */
export function contentOf(node: Node | undefined): Buffer {
  const view = (node?.valueBlock as { valueHexView?: Uint8Array } | undefined)?.valueHexView
  if (view === undefined) throw new Error('a structure without content')
  return Buffer.from(view)
}

const copyOf = (bytes: Uint8Array): ArrayBuffer => Uint8Array.from(bytes).buffer
