import { createHash } from 'node:crypto'
import { sha256 } from '../maths/sha256.ts'
import { readRegular, regularChunks } from './regular-file.ts'

/** Files up to this size are read in one go: two calls of the system instead of a stream's dozen. */
const SMALL_BYTES = 4 * 2 ** 20

/**
 * SHA-256 and size of a file as stored.
 *
 * @param bytes  its size as far as known; only decides how it is read
 */
export async function digestFile(path: string, bytes = Infinity): Promise<{ sha256: string; bytes: number }> {
  if (bytes <= SMALL_BYTES) {
    const whole = await readRegular(path)
    return { sha256: sha256(whole), bytes: whole.length }
  }
  const hash = createHash('sha256')
  let read = 0
  for await (const piece of regularChunks(path)) {
    hash.update(piece)
    read += piece.length
  }
  return { sha256: hash.digest('hex'), bytes: read }
}
