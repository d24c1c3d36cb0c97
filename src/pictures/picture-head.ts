import { readJpegHead } from './jpeg-head.ts'
import { MOST_PIXELS, type PictureHead, type PictureLook } from './picture-look.ts'
import { isPng, readPngHead } from './png-head.ts'

/** EXIF orientations 5 to 8 lie on their side. */
const FIRST_SIDEWAYS = 5

/**
 * Tells a picture by its own bytes, whatever its name, and reads its head. The pixels are not decoded.
 *
 * @param data  the whole file
 */
export function readPictureHead(data: Uint8Array): PictureLook {
  const look = isPng(data)
    ? readPngHead(data)
    : isJpeg(data)
      ? readJpegHead(data)
      : { ok: false as const, why: 'unknown' as const }
  if (look.ok && look.head.widthPx * look.head.heightPx > MOST_PIXELS)
    return { ok: false, why: 'too-large', most: MOST_PIXELS }
  return look
}

const isJpeg = (data: Uint8Array): boolean => data[0] === 0xff && data[1] === 0xd8 && data[2] === 0xff

/** Width and height as seen upright. */
export function uprightSize({ widthPx, heightPx, orientation }: PictureHead): {
  widthPx: number
  heightPx: number
} {
  return orientation >= FIRST_SIDEWAYS ? { widthPx: heightPx, heightPx: widthPx } : { widthPx, heightPx }
}
