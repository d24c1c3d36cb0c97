import { readValue, skipSpace, type PdfDict, type PdfValue } from './pdf-objects.ts'

/** Most one object's own text may take, bytes: a report's longest is the list of its embedded files. */
const MOST_OBJECT_BYTES = 2 ** 20
/** Turned into text at first; most objects take less. */
const FIRST_OBJECT_BYTES = 2 ** 10
/** Most that is turned into text in all, bytes: enough for the objects of thousands of embedded files, seconds of work. */
const MOST_READ_BYTES = 2 ** 25
/** An entry of the table, `0000000015 00000 n \n` (ISO 32000-2, 7.5.4). */
const ENTRY_BYTES = 20
/** Most of a trailer, bytes. */
const MOST_TRAILER_BYTES = 2 ** 12

export interface StoredObject {
  value: PdfValue
  /** First byte of the object in the file. */
  at: number
  /** First byte of the stream behind the value, if there is one. */
  streamAt: number | undefined
}

/**
 * A PDF file as this program writes it: one cross-reference table, objects plain. Only the pieces asked for are turned
 * into text, so that a file made to fill a computer cannot.
 */
export class PdfFile {
  readonly bytes: Uint8Array
  readonly #table: Table
  #left = MOST_READ_BYTES

  /** @throws Error for a file that is not one of ours, or damaged */
  constructor(bytes: Uint8Array) {
    this.bytes = bytes
    this.#table = readTable(bytes)
  }

  get catalog(): PdfDict['dict'] {
    return dictOf(this.load(this.#table.root).value)
  }

  /** What a value stands for: itself, or the object it names. */
  load(value: PdfValue | undefined): StoredObject {
    if (!isRef(value)) return { value: value ?? null, at: -1, streamAt: undefined }
    const at = this.#offsetOf(value.ref)
    const head = `${value.ref} 0 obj`
    for (let most = FIRST_OBJECT_BYTES; ; most *= 32) {
      const text = this.#text(at, at + Math.min(most, MOST_OBJECT_BYTES))
      if (!text.startsWith(head)) throw new Error(`object ${value.ref} is not where it should be`)
      try {
        const read = readValue(text, head.length)
        const behind = skipSpace(text, read.end)
        // A stream, or the object's end, has to be in sight: else the value itself may have been cut.
        if (behind + 'endobj'.length > text.length && most < MOST_OBJECT_BYTES) continue
        const stream = text.startsWith('stream\n', behind) ? at + behind + 'stream\n'.length : undefined
        return { value: read.value, at, streamAt: stream }
      } catch (cause) {
        if (most >= MOST_OBJECT_BYTES || at + most >= this.bytes.length) throw cause
      }
    }
  }

  #offsetOf(id: number): number {
    const { entries, count } = this.#table
    const from = entries + id * ENTRY_BYTES
    const entry = /^(\d{10}) \d{5} n/.exec(id < count ? this.#text(from, from + ENTRY_BYTES) : '')
    if (!entry) throw new Error(`object ${id} is not in the table`)
    return Number(entry[1])
  }

  /** A piece of the file as text; all pieces together are bounded. */
  #text(from: number, to: number): string {
    this.#left -= Math.max(0, Math.min(to, this.bytes.length) - from)
    if (this.#left < 0) throw new Error('the objects asked for are more than a report holds')
    return latin1(this.bytes, from, to)
  }
}

export const dictOf = (value: PdfValue): PdfDict['dict'] => {
  if (typeof value === 'object' && value !== null && 'dict' in value) return value.dict
  throw new Error('a value is no dictionary')
}

const isRef = (value: PdfValue | undefined): value is { ref: number } =>
  typeof value === 'object' && value !== null && 'ref' in value

const latin1 = (bytes: Uint8Array, from: number, to: number): string =>
  Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString(
    'latin1',
    from,
    Math.min(to, bytes.length),
  )

/** The cross-reference table: where its entries begin, how many there are, and the trailer's root. */
interface Table {
  entries: number
  count: number
  root: PdfValue
}

/** Entries are looked up where they stand, so that a table of any length costs nothing. */
function readTable(bytes: Uint8Array): Table {
  const at = Number(
    /startxref\n(\d+)\n%%EOF\n?$/.exec(latin1(bytes, bytes.length - 64, bytes.length))?.[1] ?? NaN,
  )
  if (!(at < bytes.length)) throw new Error('no cross-reference table')
  const head = /^xref\n0 (\d{1,9})\n/.exec(latin1(bytes, at, at + 40))
  if (!head) throw new Error('no cross-reference table')
  const count = Number(head[1])
  const entries = at + head[0].length
  const trailer = latin1(
    bytes,
    entries + count * ENTRY_BYTES,
    entries + count * ENTRY_BYTES + MOST_TRAILER_BYTES,
  )
  if (!trailer.startsWith('trailer')) throw new Error('no trailer')
  return { entries, count, root: dictOf(readValue(trailer, 'trailer'.length).value).get('Root') ?? null }
}
