import { isAscii } from 'node:buffer'
import { JobError, problem } from '../problems/problem.ts'
import type { Dialect } from './capture.ts'

type Encoding = Dialect['encoding']

/** Bytes looked at for zero bytes of two-byte text. */
const PROBE_BYTES = 1024
/** Two-byte text of Latin letters and digits has a zero in nearly every second byte; one-byte text has none. */
const ZERO_SHARE = 0.4

/** How a file's bytes spell text, and the length of the mark at its start (0 without one). */
export interface EncodingFound {
  encoding: Encoding
  markBytes: number
  evidence: string
}

/** Tells the encoding from a byte-order mark, else from zero bytes, else from whether the bytes are valid UTF-8. */
export function findEncoding(head: Uint8Array): EncodingFound {
  if (head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf)
    return { encoding: 'utf-8', markBytes: 3, evidence: 'utf-8 (EF BB BF)' }
  if (head[0] === 0xff && head[1] === 0xfe)
    return { encoding: 'utf-16le', markBytes: 2, evidence: 'utf-16le (FF FE)' }
  if (head[0] === 0xfe && head[1] === 0xff)
    return { encoding: 'utf-16be', markBytes: 2, evidence: 'utf-16be (FE FF)' }
  const zeros = zeroShares(head.subarray(0, PROBE_BYTES))
  if (zeros.odd > ZERO_SHARE && zeros.even < 0.05)
    return { encoding: 'utf-16le', markBytes: 0, evidence: 'utf-16le (xx 00)' }
  if (zeros.even > ZERO_SHARE && zeros.odd < 0.05)
    return { encoding: 'utf-16be', markBytes: 0, evidence: 'utf-16be (00 xx)' }
  return isUtf8(head)
    ? { encoding: 'utf-8', markBytes: 0, evidence: 'utf-8' }
    : { encoding: 'latin1', markBytes: 0, evidence: 'latin1 (not utf-8)' }
}

function zeroShares(bytes: Uint8Array): { even: number; odd: number } {
  const pairs = Math.floor(bytes.length / 2)
  if (pairs < 2) return { even: 0, odd: 0 }
  const zeros = [0, 0]
  for (let i = 0; i < pairs * 2; i++) if (bytes[i] === 0) zeros[i & 1]!++
  return { even: zeros[0]! / pairs, odd: zeros[1]! / pairs }
}

/** Whether the bytes are UTF-8, a sequence cut by their end allowed. */
function isUtf8(bytes: Uint8Array): boolean {
  if (isAscii(bytes)) return true // nearly every file: told without making text of it
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes, { stream: true })
    return true
  } catch {
    return false // not a fault: the answer
  }
}

/**
 * A line feed or carriage return whose bytes changed places, or some digits and signs of figures in a row: what text a
 * byte out of step is full of, and no measured text holds.
 */
const SHIFTED =
  /[\u0a00\u0d00]|[\u3000\u3100\u3200\u3300\u3400\u3500\u3600\u3700\u3800\u3900\u0900\u2000\u2200\u2b00\u2c00\u2d00\u2e00\u3b00]{4}/

/**
 * Turns UTF-16 chunks into UTF-8 ones, so that everything after sees one byte a digit.
 * @throws JobError `shifted-bytes` where a byte is missing or too many: what follows would be one line of nonsense
 */
export async function* utf16ToUtf8(
  chunks: AsyncIterable<Uint8Array>,
  { encoding, file }: { encoding: 'utf-16le' | 'utf-16be'; file: string },
): AsyncGenerator<Uint8Array> {
  const decoder = new TextDecoder(encoding, { ignoreBOM: false })
  const ends = { feeds: 0, returns: 0 }
  const inStep = (text: string): Buffer => {
    const at = text.search(SHIFTED)
    const sound = at < 0 ? text : text.slice(0, at)
    ends.feeds += sound.split('\n').length - 1
    ends.returns += sound.split('\r').length - 1
    if (at < 0) return Buffer.from(text, 'utf8')
    throw new JobError([problem('shifted-bytes', { file, line: 1 + (ends.feeds || ends.returns) }, {})])
  }
  for await (const chunk of chunks) yield inStep(decoder.decode(chunk, { stream: true }))
  yield inStep(decoder.decode())
}
