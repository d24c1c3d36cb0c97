/** A repeatable source of numbers in 0..1: xorshift32 (Marsaglia 2003). */
export function randoms(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state ^= state << 13
    state ^= state >>> 17
    state ^= state << 5
    return (state >>> 0) / 2 ** 32
  }
}

/** Pieces that mean something to a reader of captures. */
const PIECES = [',', ';', '\t', ' ', '\n', '\r', '"', '.', '-', '+', 'e', 'E5', '#', '\0', '\ufeff', 'Inf', '1e999', '1,234.5', '1.234,5',
  '12:00:00', '99999999999999999999', '(mV)', 's', 'time', '\u001a', '\u00a0', '0', '9']

/** One to eight random changes of the bytes: a bit, a byte, a piece put in, a stretch taken out, doubled or moved. */
export function mutated(bytes: Uint8Array, random: () => number): Buffer {
  let now = Buffer.from(bytes)
  const at = (end: number) => Math.floor(random() * end)
  for (let changes = 1 + at(8); changes > 0; changes--) {
    const from = at(now.length + 1)
    const stretch = now.subarray(from, from + at(20))
    const rest = now.subarray(from + stretch.length)
    const kind = at(6)
    if (kind === 0 && from < now.length) now[from]! ^= 1 << at(8)
    else if (kind === 1 && from < now.length) now[from] = at(256)
    else if (kind === 2) now = Buffer.concat([now.subarray(0, from), Buffer.from(PIECES[at(PIECES.length)]!), now.subarray(from)])
    else if (kind === 3) now = Buffer.concat([now.subarray(0, from), rest])
    else if (kind === 4) now = Buffer.concat([now.subarray(0, from), stretch, stretch, rest])
    else now = Buffer.concat([now.subarray(0, from), rest, stretch])
  }
  return now
}
