import { readValue, skipSpace, type PdfDict, type PdfValue } from './pdf-objects.ts'

/** Most one object's own text may take, bytes: a report's longest is the list of its embedded files. */
const MOST_OBJECT_BYTES = 2 ** 20
/** Most of the cross-reference table and the trailer, bytes. */
const MOST_TABLE_BYTES = 2 ** 25

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
  readonly #offsets: ReadonlyMap<number, number>
  readonly #root: PdfValue

  /** @throws Error for a file that is not one of ours, or damaged */
  constructor(bytes: Uint8Array) {
    this.bytes = bytes
    const { offsets, root } = readTable(bytes)
    this.#offsets = offsets
    this.#root = root
  }

  get catalog(): PdfDict['dict'] {
    return dictOf(this.load(this.#root).value)
  }

  /** What a value stands for: itself, or the object it names. */
  load(value: PdfValue | undefined): StoredObject {
    if (!isRef(value)) return { value: value ?? null, at: -1, streamAt: undefined }
    const at = this.#offsets.get(value.ref)
    const head = `${value.ref} 0 obj`
    const text = at === undefined ? '' : latin1(this.bytes, at, at + MOST_OBJECT_BYTES)
    if (at === undefined || !text.startsWith(head))
      throw new Error(`object ${value.ref} is not where it should be`)
    const read = readValue(text, head.length)
    const behind = skipSpace(text, read.end)
    const stream = text.startsWith('stream\n', behind) ? at + behind + 'stream\n'.length : undefined
    return { value: read.value, at, streamAt: stream }
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

function readTable(bytes: Uint8Array): { offsets: ReadonlyMap<number, number>; root: PdfValue } {
  const at = Number(
    /startxref\n(\d+)\n%%EOF\n?$/.exec(latin1(bytes, bytes.length - 64, bytes.length))?.[1] ?? NaN,
  )
  if (!(at < bytes.length) || bytes.length - at > MOST_TABLE_BYTES)
    throw new Error('no cross-reference table')
  const text = latin1(bytes, at, bytes.length)
  const head = /^xref\n0 (\d+)\n/.exec(text.slice(0, 40))
  if (!head) throw new Error('no cross-reference table')
  const count = Number(head[1])
  const offsets = new Map<number, number>()
  let from = head[0].length
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
