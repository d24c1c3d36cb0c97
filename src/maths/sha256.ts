import { createHash } from 'node:crypto'

/** SHA-256 of bytes or of a text (UTF-8), lower-case hex. */
export const sha256 = (...parts: readonly (Uint8Array | string)[]): string => {
  const hash = createHash('sha256')
  for (const part of parts) hash.update(part)
  return hash.digest('hex')
}
