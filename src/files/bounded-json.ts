import { readRegularSync, TooLarge } from './regular-file.ts'

/** How much JSON of somebody else's is read at most: a short text may stand for very much in memory. */
export interface JsonBounds {
  bytes: number
  /** Values, counted by the marks that begin or part them. */
  values: number
  /** Lists and objects within each other. */
  depth: number
}

/** Many times the longest manifest: of 8192 inputs, or of a copy that commits to every part of a long record. */
export const MANIFEST_BOUNDS: JsonBounds = { bytes: 8 * 2 ** 20, values: 250_000, depth: 16 }
/** Five times the record of the longest log that is read, 5000 rows. */
export const RECORD_BOUNDS: JsonBounds = { bytes: 48 * 2 ** 20, values: 1_500_000, depth: 32 }

/** A regular file's bytes, of JSON within bounds. @throws TooLarge; NotRegular; the system's own error */
export function readJsonBytes(path: string, bounds: JsonBounds): Buffer {
  const bytes = readRegularSync(path, bounds.bytes)
  if (!isWithin(bytes, bounds)) throw new TooLarge(path)
  return bytes
}

/** The same as text, UTF-8. @throws as above */
export const readJsonText = (path: string, bounds: JsonBounds): string =>
  readJsonBytes(path, bounds).toString('utf8')

const [QUOTE, BACKSLASH, COMMA] = [0x22, 0x5c, 0x2c]
const [OPEN_LIST, CLOSE_LIST, OPEN_OBJECT, CLOSE_OBJECT] = [0x5b, 0x5d, 0x7b, 0x7d]

/** Whether text, JSON or not, holds no more values than so many, and none deeper. */
export function isWithin(
  bytes: Uint8Array,
  { values, depth }: Pick<JsonBounds, 'values' | 'depth'>,
): boolean {
  let [marks, level, inText] = [0, 0, false]
  for (let i = 0; i < bytes.length; i++) {
    const byte = bytes[i]
    if (inText) {
      if (byte === BACKSLASH) i++
      else if (byte === QUOTE) inText = false
    } else if (byte === QUOTE) inText = true
    else if (byte === CLOSE_LIST || byte === CLOSE_OBJECT) level--
    else if (byte === COMMA) marks++
    else if (byte === OPEN_LIST || byte === OPEN_OBJECT) {
      marks++
      if (++level > depth) return false
    }
  }
  return marks <= values
}
