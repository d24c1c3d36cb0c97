/** Size of a picture as seen upright, in pixels. */
export interface ImageSize { widthPx: number; heightPx: number }

const PNG_SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]
/** EXIF orientations 5 to 8 lie on their side. */
const FIRST_SIDEWAYS = 5

/**
 * Size of a JPEG or PNG from its head, turned as its EXIF orientation says.
 * Undefined for anything else, for a broken head, and for a JPEG in four ink colours.
 * @source ITU-T T.81 B.2.2 (frame header), W3C PNG 11.2.2 (IHDR), EXIF 2.3 tag 0x0112
 */
export function imageSize(data: Uint8Array): ImageSize | undefined {
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength)
  if (data.length >= 24 && PNG_SIGNATURE.every((byte, i) => data[i] === byte)) {
    return seen({ widthPx: view.getUint32(16), heightPx: view.getUint32(20) }, 1)
  }
  return data.length >= 4 && view.getUint16(0) === 0xffd8 ? jpegSize(view) : undefined
}

function jpegSize(view: DataView): ImageSize | undefined {
  let orientation = 1
  let at = 2
  while (at + 9 < view.byteLength && view.getUint8(at) === 0xff) {
    const marker = view.getUint8(at + 1)
    const length = view.getUint16(at + 2)
    if (marker === 0xe1) orientation = exifOrientation(view, at + 4) ?? orientation
    if (isFrame(marker)) {
      const colours = view.getUint8(at + 9)
      return colours === 4 ? undefined : seen({ heightPx: view.getUint16(at + 5), widthPx: view.getUint16(at + 7) }, orientation)
    }
    at += 2 + length
  }
  return undefined
}

/** SOF0 to SOF15, less the three markers among them that are no frames. */
const isFrame = (marker: number) => marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker)

function seen({ widthPx, heightPx }: ImageSize, orientation: number): ImageSize | undefined {
  if (widthPx === 0 || heightPx === 0) return undefined
  return orientation >= FIRST_SIDEWAYS ? { widthPx: heightPx, heightPx: widthPx } : { widthPx, heightPx }
}

function exifOrientation(view: DataView, at: number): number | undefined {
  if (at + 14 > view.byteLength || view.getUint32(at) !== 0x45786966) return undefined
  const tiff = at + 6
  const little = view.getUint16(tiff) === 0x4949
  const table = tiff + view.getUint32(tiff + 4, little)
  if (table + 2 > view.byteLength) return undefined
  for (let i = 0; i < view.getUint16(table, little); i++) {
    const entry = table + 2 + i * 12
    if (entry + 12 > view.byteLength) return undefined
    if (view.getUint16(entry, little) === 0x0112) return view.getUint16(entry + 8, little)
  }
  return undefined
}
