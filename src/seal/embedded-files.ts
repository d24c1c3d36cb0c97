import { createHash } from 'node:crypto'
import { createInflate } from 'node:zlib'
import { dictOf, type PdfFile } from './pdf-file.ts'
import type { PdfValue } from './pdf-objects.ts'

/** A file embedded in a report. */
export interface EmbeddedFile {
  /** SHA-256, lower-case hex. */
  sha256: string
  /** Its bytes, where it is one of those asked for. */
  data: Uint8Array | undefined
}

/** Most all embedded files of a report may unpack to, as a multiple of the report's own size, and beyond that. */
const MOST_RATIO = 100
const MOST_BEYOND_BYTES = 2 ** 26
/** Most a file asked for as a whole may unpack to, bytes. */
const MOST_WHOLE_BYTES = 2 ** 26

/**
 * The files embedded in a report, by name: names in one list, streams plain or deflated, as this program writes them.
 * Each is hashed as it is unpacked; only those named in `whole` are kept.
 *
 * @throws Error for anything else, and for files that unpack to far more than a report holds
 */
export async function embeddedFiles(
  pdf: PdfFile,
  whole: ReadonlySet<string>,
): Promise<Map<string, EmbeddedFile>> {
  const files = new Map<string, EmbeddedFile>()
  const names = pdf.load(pdf.catalog.get('Names')).value
  if (names === null) return files
  const list = pdf.load(dictOf(names).get('EmbeddedFiles')).value
  const pairs = list === null ? [] : pdf.load(dictOf(list).get('Names')).value
  if (!Array.isArray(pairs) || pairs.length % 2 !== 0)
    throw new Error('the list of embedded files is no list of pairs')
  const budget = { left: MOST_RATIO * pdf.bytes.length + MOST_BEYOND_BYTES }
  for (let i = 0; i < pairs.length; i += 2) {
    const spec = dictOf(pdf.load(pairs[i + 1] as PdfValue).value)
    const name = textOf(pdf.load(spec.get('UF')).value)
    if (name !== textOf(pairs[i] as PdfValue) || files.has(name))
      throw new Error('an embedded file has two names, or two have one')
    const stored = storedBytes(pdf, dictOf(pdf.load(spec.get('EF')).value).get('F'))
    files.set(name, await unpacked(stored, whole.has(name), budget))
  }
  return files
}

interface StoredBytes {
  bytes: Uint8Array
  deflated: boolean
}

function storedBytes(pdf: PdfFile, ref: PdfValue | undefined): StoredBytes {
  const { value, streamAt } = pdf.load(ref)
  const dict = dictOf(value)
  const length = dict.get('Length')
  const filter = dict.get('Filter')
  if (
    typeof length !== 'number' ||
    length < 0 ||
    streamAt === undefined ||
    streamAt + length > pdf.bytes.length
  )
    throw new Error('an embedded file has no stream')
  if (
    filter !== undefined &&
    (typeof filter !== 'object' || filter === null || !('name' in filter) || filter.name !== 'FlateDecode')
  )
    throw new Error('an embedded file is packed in an unknown way')
  return { bytes: pdf.bytes.subarray(streamAt, streamAt + length), deflated: filter !== undefined }
}

async function unpacked(stored: StoredBytes, keep: boolean, budget: { left: number }): Promise<EmbeddedFile> {
  const hash = createHash('sha256')
  const kept: Uint8Array[] = []
  let bytes = 0
  for await (const chunk of stored.deflated ? inflated(stored.bytes) : [stored.bytes]) {
    bytes += chunk.length
    budget.left -= chunk.length
    if (budget.left < 0 || (keep && bytes > MOST_WHOLE_BYTES))
      throw new Error('the embedded files unpack to more than a report holds')
    hash.update(chunk)
    if (keep) kept.push(chunk)
  }
  return { sha256: hash.digest('hex'), data: keep ? Buffer.concat(kept) : undefined }
}

async function* inflated(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  const inflate = createInflate()
  inflate.end(bytes)
  for await (const chunk of inflate) yield chunk as Uint8Array
}

/** A text string: UTF-16 with its mark, or one character a byte (ISO 32000-2, 7.9.2.2). */
function textOf(value: PdfValue): string {
  if (!Buffer.isBuffer(value)) throw new Error('a name is no string')
  if (value[0] === 0xfe && value[1] === 0xff)
    return Buffer.from(value.subarray(2)).swap16().toString('utf16le')
  return value.toString('latin1')
}
