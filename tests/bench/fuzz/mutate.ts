import type { Random } from '../../../src/maths/random.ts'

/** Pieces that mean something to a reader of captures. */
export const CAPTURE_PIECES: readonly string[] = [
  ',',
  ';',
  '\t',
  ' ',
  '\n',
  '\r',
  '"',
  '.',
  '-',
  '+',
  'e',
  'E5',
  '#',
  '\0',
  '\ufeff',
  'Inf',
  '1e999',
  '1,234.5',
  '1.234,5',
  '12:00:00',
  '99999999999999999999',
  '(mV)',
  's',
  'time',
  '\u001a',
  '\u00a0',
  '0',
  '9',
]

/** Pieces that mean something to a reader of job.yaml or test-log.csv. */
export const JOB_PIECES: readonly string[] = [
  '\n',
  '  ',
  '\t',
  ': ',
  '- ',
  '[',
  ']',
  '{',
  '}',
  '"',
  "'",
  '#',
  '&a ',
  '*a',
  '!t ',
  '|',
  '>',
  ',',
  ';',
  '0',
  '-1',
  '1e999',
  'NaN',
  '..',
  '\0',
  '\ufeff',
  '\u202e',
  'null',
  '~',
  '---\n',
  '%',
  '<<: ',
  '__proto__: ',
  'constructor: ',
  '\r',
  '\\',
]

/** Changes made to one input at most. */
const MOST_CHANGES = 8
/** Longest stretch taken out, doubled or moved at once. */
const LONGEST_STRETCH = 30

/** The bytes after one to eight random changes: a digit, a bit, a byte, a piece put in, a stretch taken out, doubled or moved to the end. */
export function mutated(bytes: Uint8Array, random: Random, pieces: readonly string[]): Buffer {
  let now = Buffer.from(bytes)
  // One change as often as not: an input broken in many places is refused for the first.
  for (let changes = 1 + random.integer(1 + random.integer(MOST_CHANGES)); changes > 0; changes--)
    now = changed(now, random, pieces)
  return now
}

function changed(now: Buffer<ArrayBuffer>, random: Random, pieces: readonly string[]): Buffer<ArrayBuffer> {
  const from = random.integer(now.length + 1)
  const stretch = now.subarray(from, from + random.integer(LONGEST_STRETCH))
  const [before, rest] = [now.subarray(0, from), now.subarray(from + stretch.length)]
  switch (random.integer(8)) {
    case 6:
    case 7:
      return otherDigit(now, from, random)
    case 0:
      return flipped(now, 8 * from + random.integer(8))
    case 1:
      return Buffer.concat([before, Buffer.of(random.integer(256)), now.subarray(from + 1)])
    case 2:
      return Buffer.concat([before, Buffer.from(pieces[random.integer(pieces.length)]!), now.subarray(from)])
    case 3:
      return Buffer.concat([before, rest])
    case 4:
      return Buffer.concat([before, stretch, stretch, rest])
    default:
      return Buffer.concat([before, rest, stretch])
  }
}

/** The first digit from a place on replaced by another: what stays readable is where a wrong figure could hide. */
function otherDigit(now: Buffer<ArrayBuffer>, from: number, random: Random): Buffer<ArrayBuffer> {
  const at = now.subarray(from).findIndex((byte) => byte >= 0x30 && byte <= 0x39)
  const copy = Buffer.from(now)
  if (at >= 0) copy[from + at] = 0x30 + random.integer(10)
  return copy
}

/** A copy with one bit turned; bit 8 i + j is bit j of byte i. Past the end nothing is turned. */
export function flipped(bytes: Uint8Array, bit: number): Buffer<ArrayBuffer> {
  const copy = Buffer.from(bytes)
  if (bit >> 3 < copy.length) copy[bit >> 3]! ^= 1 << (bit & 7)
  return copy
}
