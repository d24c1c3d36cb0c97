import { readPictureHead } from './picture-head.ts'
import type { PictureLook } from './picture-look.ts'
import { isPng, pngParts } from './png-head.ts'
import { isWhole } from './png-pixels.ts'

/**
 * The head of a picture, and of a PNG, which has checksums, whether the pixels behind it are whole.
 *
 * @param data  the whole file
 */
export async function lookAtPicture(data: Uint8Array): Promise<PictureLook> {
  const look = readPictureHead(data)
  if (!look.ok || !isPng(data)) return look
  const parts = pngParts(data)
  return typeof parts !== 'string' && (await isWhole(parts)) ? look : { ok: false, why: 'damaged' }
}
