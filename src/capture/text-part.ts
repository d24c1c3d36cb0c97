import type { ByteSource } from './byte-source.ts'

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
    for await (const chunk of chunks) {
      if (this.bytes + chunk.length <= this.most) {
        this.bytes += chunk.length
        yield chunk
        continue
      }
      const part = chunk.subarray(0, this.most - this.bytes)
      const end = Math.max(part.lastIndexOf(LF), part.lastIndexOf(CR)) + 1
      this.bytes += end
      this.whole = false
      yield part.subarray(0, end)
      return
    }
  }
}
