import { findEncoding, utf16ToUtf8, type EncodingFound } from './encoding.ts'

/** Bytes looked at before anything is decided; the head grows from here while it shows no data. */
const FIRST_HEAD_BYTES = 32 * 1024
const LF = 10
const CR = 13

/** The start of a file's text, as bytes in which ASCII is ASCII (two-byte text already turned into UTF-8). */
export interface TextHead {
  bytes: Buffer
  /** True when the file has no more. */
  whole: boolean
  encoding: EncodingFound
}

/** One line of the head. */
export interface HeadLine {
  text: string
  /** 1-based. */
  number: number
  /** Byte offset in the head. */
  offset: number
  /** False for a last line without its line end. */
  ended: boolean
}

/** A text's first bytes, growing on demand, and the rest as chunks. Nothing is read twice. */
export class TextReader {
  readonly #chunks: AsyncGenerator<Uint8Array>
  #text: AsyncGenerator<Uint8Array>
  #head: TextHead | undefined
  readonly #file: string

  /** @param file  name for problems */
  constructor(chunks: AsyncGenerator<Uint8Array>, file: string) {
    this.#file = file
    this.#chunks = chunks
    this.#text = chunks
  }

  /** The head, of at least `bytes` bytes or the whole text. */
  async head(bytes: number = FIRST_HEAD_BYTES): Promise<TextHead> {
    this.#head ??= await this.#start()
    const { encoding } = this.#head
    const parts: Uint8Array[] = [this.#head.bytes]
    let length = this.#head.bytes.length
    let whole = this.#head.whole
    while (!whole && length < bytes) {
      const next = await this.#text.next()
      if (next.done) {
        whole = true
        break
      }
      parts.push(Buffer.from(next.value)) // copied: the source uses its buffers again
      length += next.value.length
    }
    return (this.#head = { bytes: Buffer.concat(parts), whole, encoding })
  }

  /** What follows the head; the caller keeps no chunk past the next but one. */
  rest(): AsyncGenerator<Uint8Array> {
    return this.#text
  }

  /** Finds the encoding and, for two-byte text, changes over to UTF-8. */
  async #start(): Promise<TextHead> {
    const first = await this.#chunks.next()
    const bytes = first.done ? Buffer.alloc(0) : Buffer.from(first.value) // copied: the source uses its buffers again
    const encoding = findEncoding(bytes)
    if (encoding.encoding === 'utf-16le' || encoding.encoding === 'utf-16be') {
      this.#text = utf16ToUtf8(startingWith(bytes, this.#chunks), {
        encoding: encoding.encoding,
        file: this.#file,
      })
      return { bytes: Buffer.alloc(0), whole: false, encoding: { ...encoding, markBytes: 0 } }
    }
    if (bytes.length <= FIRST_HEAD_BYTES) return { bytes, whole: first.done === true, encoding }
    // Every line of a head is looked at as text: a chunk's many thousand lines would take longer than decoding them.
    this.#text = startingWith(bytes.subarray(FIRST_HEAD_BYTES), this.#chunks)
    return { bytes: bytes.subarray(0, FIRST_HEAD_BYTES), whole: false, encoding }
  }
}

async function* startingWith(
  first: Uint8Array,
  rest: AsyncGenerator<Uint8Array>,
): AsyncGenerator<Uint8Array> {
  yield first
  yield* rest
}

/** The byte that ends a line: line feed if the head has any, else carriage return if it has any, else line feed. */
export function lineEndOf(bytes: Buffer): typeof LF | typeof CR {
  return bytes.includes(LF) || !bytes.includes(CR) ? LF : CR
}

/** Decodes one-byte text or UTF-8. Bytes that are no UTF-8 become replacement marks, never an error. */
export function decodeText(bytes: Uint8Array, encoding: EncodingFound['encoding']): string {
  return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length).toString(
    encoding === 'latin1' ? 'latin1' : 'utf8',
  )
}

/** Cuts the head into lines, line ends (also CR LF and CR CR LF) taken off. A cut last line of a longer text is left out. */
export function headLines(head: TextHead, lineEnd: number): HeadLine[] {
  const lines: HeadLine[] = []
  const { bytes, encoding } = head
  for (let offset = encoding.markBytes, number = 1; offset < bytes.length; number++) {
    const at = bytes.indexOf(lineEnd, offset)
    if (at < 0 && !head.whole) break
    const end = at < 0 ? bytes.length : at
    const text = decodeText(bytes.subarray(offset, end), encoding.encoding).replace(/\r+$/, '')
    lines.push({ text, number, offset, ended: at >= 0 })
    offset = end + 1
  }
  return lines
}
