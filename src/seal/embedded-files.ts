import { inflateSync } from 'node:zlib'
import { readValue, skipSpace, type PdfDict, type PdfValue } from './pdf-objects.ts'

/** Most one embedded file may unpack to, bytes: a bound against files made to fill a computer. */
const MOST_BYTES = 2 ** 30

interface Stored {
  value: PdfValue
  /** First byte of the stream behind the value, if there is one. */ streamAt: number | undefined
}

/**
 * The files embedded in a report, by name. Reads what this program writes: one cross-reference table, names in one list,
 * streams plain or deflated.
 *
 * @param pdf  all bytes of the file
 * @throws Error for anything else; the file is then not one of ours, or damaged
 */
export function embeddedFiles(pdf: Uint8Array): Map<string, Uint8Array> {
  const text = Buffer.from(pdf.buffer, pdf.byteOffset, pdf.byteLength).toString('latin1')
  const { offsets, root } = readTable(text)
  const load = (value: PdfValue | undefined): Stored =>
    isRef(value) ? loadObject(text, offsets, value.ref) : { value: value ?? null, streamAt: undefined }
  const files = new Map<string, Uint8Array>()
  const catalog = dictOf(load(root).value)
  const names = load(catalog.get('Names')).value
  if (names === null) return files
  const list = load(dictOf(names).get('EmbeddedFiles')).value
  const pairs = list === null ? [] : load(dictOf(list).get('Names')).value
  if (!Array.isArray(pairs) || pairs.length % 2 !== 0)
    throw new Error('the list of embedded files is no list of pairs')
  for (let i = 0; i < pairs.length; i += 2) {
    const spec = dictOf(load(pairs[i + 1] as PdfValue).value)
    const name = textOf(load(spec.get('UF')).value)
    if (name !== textOf(pairs[i] as PdfValue) || files.has(name))
      throw new Error('an embedded file has two names, or two have one')
    files.set(name, bytesOf(pdf, load(dictOf(load(spec.get('EF')).value).get('F'))))
  }
  return files
}

const isRef = (value: PdfValue | undefined): value is { ref: number } =>
  typeof value === 'object' && value !== null && 'ref' in value

function dictOf(value: PdfValue): PdfDict['dict'] {
  if (typeof value === 'object' && value !== null && 'dict' in value) return value.dict
  throw new Error('a value is no dictionary')
}

function readTable(text: string): { offsets: ReadonlyMap<number, number>; root: PdfValue } {
  const at = Number(/startxref\n(\d+)\n%%EOF\n?$/.exec(text.slice(-64))?.[1] ?? NaN)
  const head = /^xref\n0 (\d+)\n/.exec(text.slice(at, at + 40))
  if (!head) throw new Error('no cross-reference table')
  const count = Number(head[1])
  const offsets = new Map<number, number>()
  let from = at + head[0].length
  for (let id = 0; id < count; id++) {
    const end = text.indexOf('\n', from)
    const entry = /^(\d{10}) \d{5} ([fn])/.exec(text.slice(from, end))
    if (end < 0 || !entry) throw new Error('a cross-reference entry is broken')
    if (entry[2] === 'n') offsets.set(id, Number(entry[1]))
    from = end + 1
  }
  if (!text.startsWith('trailer', from)) throw new Error('no trailer')
  return { offsets, root: dictOf(readValue(text, from + 'trailer'.length).value).get('Root') ?? null }
}

function loadObject(text: string, offsets: ReadonlyMap<number, number>, id: number): Stored {
  const at = offsets.get(id)
  const head = `${id} 0 obj`
  if (at === undefined || !text.startsWith(head, at))
    throw new Error(`object ${id} is not where it should be`)
  const { value, end } = readValue(text, at + head.length)
  const behind = skipSpace(text, end)
  return { value, streamAt: text.startsWith('stream\n', behind) ? behind + 'stream\n'.length : undefined }
}

function bytesOf(pdf: Uint8Array, { value, streamAt }: Stored): Uint8Array {
  const dict = dictOf(value)
  const length = dict.get('Length')
  const filter = dict.get('Filter')
  if (typeof length !== 'number' || streamAt === undefined || streamAt + length > pdf.length)
    throw new Error('an embedded file has no stream')
  const stored = pdf.subarray(streamAt, streamAt + length)
  if (filter === undefined) return stored
  if (typeof filter !== 'object' || filter === null || !('name' in filter) || filter.name !== 'FlateDecode')
    throw new Error('an embedded file is packed in an unknown way')
  return inflateSync(stored, { maxOutputLength: MOST_BYTES })
}

/** A text string: UTF-16 with its mark, or one character a byte (ISO 32000-2, 7.9.2.2). */
function textOf(value: PdfValue): string {
  if (!Buffer.isBuffer(value)) throw new Error('a name is no string')
  if (value[0] === 0xfe && value[1] === 0xff)
    return Buffer.from(value.subarray(2)).swap16().toString('utf16le')
  return value.toString('latin1')
}
