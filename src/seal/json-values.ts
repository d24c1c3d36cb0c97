const [QUOTE, BACKSLASH, COLON, COMMA] = [0x22, 0x5c, 0x3a, 0x2c]
const OPENING: readonly number[] = [0x7b, 0x5b]
const CLOSING: readonly number[] = [0x7d, 0x5d]
/** Most a key or a value that is kept may take, bytes. */
const MOST_BYTES = 2 ** 20

/**
 * Takes the text under some keys of the outermost object out of JSON text, piece by piece, without reading the rest of it
 * into memory: a record may hold anything. Whether the text is JSON at all is not told; what is taken out is read by
 * whoever asked for it.
 */
export class JsonValues {
  readonly values = new Map<string, string>()
  readonly #wanted: ReadonlySet<string>
  #depth = 0
  #inText = false
  #escaped = false
  /** The last text at depth 1 and, behind its colon, the key whose value is being taken. */
  #text: number[] = []
  #key: string | undefined
  #value: number[] = []

  constructor(wanted: readonly string[]) {
    this.#wanted = new Set(wanted)
  }

  /** @throws Error where a value that is asked for is longer than a report's */
  push(bytes: Uint8Array): void {
    for (const byte of bytes) this.#take(byte)
  }

  #take(byte: number): void {
    const ends = !this.#inText && this.#depth === 1 && (byte === COMMA || CLOSING.includes(byte))
    if (ends) this.#end()
    else if (this.#key !== undefined) keep(this.#value, byte)
    else if (this.#inText && this.#depth === 1 && this.#text.length < MOST_BYTES) this.#text.push(byte)
    if (this.#inText) this.#inText = this.#staysInText(byte)
    else if (byte === QUOTE) {
      this.#inText = true
      if (this.#key === undefined) this.#text = []
    } else if (byte === COLON && this.#depth === 1 && this.#key === undefined) this.#begin()
    else if (OPENING.includes(byte)) this.#depth++
    else if (CLOSING.includes(byte)) this.#depth--
  }

  #staysInText(byte: number): boolean {
    const escaped = this.#escaped
    this.#escaped = !escaped && byte === BACKSLASH
    return escaped || byte !== QUOTE
  }

  /** A key is told by its text as written, the closing mark behind it. */
  #begin(): void {
    const key = Buffer.from(this.#text).toString('utf8').replace(/"$/, '')
    if (this.#wanted.has(key)) this.#key = key
    this.#text = []
  }

  #end(): void {
    if (this.#key !== undefined && !this.values.has(this.#key))
      this.values.set(this.#key, Buffer.from(this.#value).toString('utf8'))
    this.#key = undefined
    this.#value = []
  }
}

function keep(into: number[], byte: number): void {
  if (into.length === MOST_BYTES) throw new Error('a value of the record is longer than a report holds')
  into.push(byte)
}
