import { dictOf, PdfFile } from './pdf-file.ts'

/*
 * Where a report carries a signature that readers of PDF files show, its signature dictionary has a slot of exactly the
 * signature's length: no padding to hide anything in. The dictionary is written with blanks, filled in when the file is
 * done: first the range of bytes that is signed (all but the slot), last the signature itself.
 */

/** A blank number of the byte range, as a PDF name of fixed length. */
const BLANK = '*'.repeat(10)
const RANGE = '/ByteRange '
const CONTENTS = '/Contents '

/** Entries of the signature dictionary that are filled in later. @param bytes  length of the signature */
export const blankSlot = (bytes: number): Record<string, unknown> => ({
  ByteRange: [0, BLANK, BLANK, BLANK],
  Contents: Buffer.alloc(bytes),
})

/** Where the slot lies: its first byte, `<`, and the byte behind its last, `>`. */
export interface Slot {
  from: number
  to: number
  /** Where the byte range's text lies. */
  rangeFrom: number
  rangeTo: number
}

/**
 * The slot of a file, found through its catalog; undefined where it has no form.
 *
 * @throws Error for a form that is not the one field this program writes
 */
export function findSlot(bytes: Uint8Array): Slot | undefined {
  const pdf = new PdfFile(bytes)
  const form = pdf.catalog.get('AcroForm')
  if (form === undefined) return undefined
  const fields = pdf.load(dictOf(pdf.load(form).value).get('Fields')).value
  if (!Array.isArray(fields) || fields.length !== 1) throw new Error('a form of other fields than one')
  const { value, at } = pdf.load(dictOf(pdf.load(fields[0]).value).get('V'))
  const contents = dictOf(value).get('Contents')
  if (at < 0 || !Buffer.isBuffer(contents)) throw new Error('a signature field without a signature')
  const text = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const rangeFrom = text.indexOf(RANGE, at) + RANGE.length
  const rangeTo = text.indexOf(']', rangeFrom) + 1
  const from = text.indexOf(CONTENTS, rangeTo) + CONTENTS.length
  const to = text.indexOf('>', from) + 1
  const inOrder =
    at < rangeFrom && rangeFrom < rangeTo && rangeTo < from && from + 2 * contents.length + 2 === to
  if (!inOrder || text[from] !== 0x3c) throw new Error('a signature dictionary in another form')
  return { from, to, rangeFrom, rangeTo }
}

/** The byte range as it is written: everything but the slot, its numbers padded to the blanks' length. */
export const rangeText = ({ from, to }: Slot, length: number): string =>
  `[0 ${[from, to, length - to].map((n) => String(n).padEnd(BLANK.length + 1)).join(' ')}]`

/** What is signed: all bytes but the slot's. */
export const outside = (bytes: Uint8Array, { from, to }: Slot): [Uint8Array, Uint8Array] => [
  bytes.subarray(0, from),
  bytes.subarray(to),
]

/** A signature as the slot holds it. */
export const slotText = (cms: Uint8Array): string => `<${Buffer.from(cms).toString('hex')}>`
