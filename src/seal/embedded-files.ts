import { createHash } from 'node:crypto'
import { createInflate } from 'node:zlib'
import { JsonValues } from './json-values.ts'
import { dictOf, type PdfFile } from './pdf-file.ts'
import type { PdfValue } from './pdf-objects.ts'

/** A file embedded in a report. */
export interface EmbeddedFile {
  /** SHA-256, lower-case hex. */
  sha256: string
  /** Its bytes, where they were asked for. */
  data: Buffer | undefined
  /** JSON text under the keys asked for. */
  values: ReadonlyMap<string, string>
}

/** Most all embedded files of a report may unpack to, as a multiple of the report's own size, and beyond that; and in all. */
const MOST_RATIO = 100
const MOST_BEYOND_BYTES = 2 ** 26
const MOST_UNPACKED_BYTES = 2 ** 32
/** Most a file asked for as a whole may unpack to, bytes. */
const MOST_WHOLE_BYTES = 2 ** 22
/** Most a file may unpack to of which values are asked for, bytes: no record comes near. */
const MOST_SCANNED_BYTES = 2 ** 27
/** Unpacked at a time, bytes. */
const CHUNK_BYTES = 2 ** 18
/** Most files in the list. */
const MOST_FILES = 2 ** 13

/** What is kept of a file: all of it, or what stands in JSON text under some keys of the outermost object. */
export type Wanted = 'all' | readonly string[]

/**
 * The files embedded in a report, by name: names in one list, streams plain or deflated, as this program writes them.
 * Each is hashed as it is unpacked; only what is wanted of it is kept, so that a small file cannot fill the memory.
 *
 * @throws Error for anything else, and for files that unpack to far more than a report holds
 */
export async function embeddedFiles(
  pdf: PdfFile,
  wanted: ReadonlyMap<string, Wanted>,
): Promise<Map<string, EmbeddedFile>> {
  const files = new Map<string, EmbeddedFile>()
  const names = pdf.load(pdf.catalog.get('Names')).value
  if (names === null) return files
  const list = pdf.load(dictOf(names).get('EmbeddedFiles')).value
  const pairs = list === null ? [] : pdf.load(dictOf(list).get('Names')).value
  if (!Array.isArray(pairs) || pairs.length % 2 !== 0 || pairs.length > 2 * MOST_FILES)
    throw new Error('the list of embedded files is no list of pairs')
  const budget = { left: Math.min(MOST_RATIO * pdf.bytes.length + MOST_BEYOND_BYTES, MOST_UNPACKED_BYTES) }
  for (let i = 0; i < pairs.length; i += 2) {
    const spec = dictOf(pdf.load(pairs[i + 1] as PdfValue).value)
    const name = textOf(pdf.load(spec.get('UF')).value)
    if (name !== textOf(pairs[i] as PdfValue) || files.has(name))
      throw new Error('an embedded file has two names, or two have one')
    const stored = storedBytes(pdf, dictOf(pdf.load(spec.get('EF')).value).get('F'))
    files.set(name, await unpacked(stored, wanted.get(name), budget))
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

async function unpacked(
  stored: StoredBytes,
  wanted: Wanted | undefined,
  budget: { left: number },
): Promise<EmbeddedFile> {
  const hash = createHash('sha256')
  const kept: Uint8Array[] = []
  const scan = new JsonValues(wanted === undefined || wanted === 'all' ? [] : wanted)
  let bytes = 0
  for await (const chunk of stored.deflated ? inflated(stored.bytes) : [stored.bytes]) {
    bytes += chunk.length
    budget.left -= chunk.length
    const most = wanted === undefined ? Infinity : wanted === 'all' ? MOST_WHOLE_BYTES : MOST_SCANNED_BYTES
    if (budget.left < 0 || bytes > most)
      throw new Error('the embedded files unpack to more than a report holds')
    hash.update(chunk)
    if (wanted === 'all') kept.push(chunk)
    else if (wanted !== undefined) scan.push(chunk)
  }
  return {
    sha256: hash.digest('hex'),
    data: wanted === 'all' ? Buffer.concat(kept) : undefined,
    values: scan.values,
  }
}

async function* inflated(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  const inflate = createInflate({ chunkSize: CHUNK_BYTES })
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
