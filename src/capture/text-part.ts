import type { ByteSource } from './byte-source.ts'
import { findEncoding } from './encoding.ts'

const LF = 10
const CR = 13

/** The first whole lines of a text, about so many bytes of it; what follows is neither read nor checked. */
export class TextPart {
  /** Bytes of text handed on at most. */
  readonly most: number
  /** Bytes of text the whole is expected to have; known once it is read from. */
  expected = 0
  /** Bytes of text handed on, and whether that was all of it. */
  bytes = 0
  whole = true

  constructor(most: number) {
    this.most = most
  }

  async *of({
    chunks,
    expectedBytes,
  }: Pick<ByteSource, 'chunks' | 'expectedBytes'>): AsyncGenerator<Uint8Array> {
    this.expected = expectedBytes
    // The unfinished line of a chunk waits for its end: the text may be cut within it.
    let waiting = new Uint8Array(0)
    // Of a line end of two bytes the second goes with the first.
    let endBytes: number | undefined
    for await (const chunk of chunks) {
      const part = chunk.subarray(0, this.most - this.bytes - waiting.length)
      endBytes ??= findEncoding(chunk).encoding === 'utf-16le' ? 2 : 1
      const last = part.length - endBytes
      const found = Math.max(part.lastIndexOf(LF, last), part.lastIndexOf(CR, last))
      const end = found < 0 || last < 0 ? 0 : found + endBytes
      if (end > 0) {
        // Not an empty one: the first chunk is what the encoding is told by.
        if (waiting.length > 0) yield waiting
        yield part.subarray(0, end)
        this.bytes += waiting.length + end
      }
      if (part.length < chunk.length) {
        this.whole = false
        return
      }
      waiting = end > 0 ? new Uint8Array(part.subarray(end)) : Buffer.concat([waiting, part])
    }
    this.bytes += waiting.length
    yield waiting
  }
}
