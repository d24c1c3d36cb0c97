const EXIF_NAME = 0x45786966
const LITTLE_ENDIAN = 0x4949
const BIG_ENDIAN = 0x4d4d
const TAG_ORIENTATION = 0x0112
const ENTRY_BYTES = 12

/**
 * Orientation (1 to 8) in an APP1 segment, or undefined where it holds none that can be read: such a picture is shown
 * as it is stored.
 *
 * @param segment  content of the segment, after its length
 * @source EXIF 2.3: 4.5.2 (header of TIFF form), tag 0x0112 Orientation
 */
export function exifOrientation(segment: DataView): number | undefined {
  if (segment.byteLength < 14 || segment.getUint32(0) !== EXIF_NAME) return undefined
  const tiff = new DataView(segment.buffer, segment.byteOffset + 6, segment.byteLength - 6)
  const order = tiff.getUint16(0)
  if (order !== LITTLE_ENDIAN && order !== BIG_ENDIAN) return undefined
  const little = order === LITTLE_ENDIAN
  const table = tiff.getUint32(4, little)
  if (table + 2 > tiff.byteLength) return undefined
  const entries = tiff.getUint16(table, little)
  for (let i = 0; i < entries; i++) {
    const entry = table + 2 + i * ENTRY_BYTES
    if (entry + ENTRY_BYTES > tiff.byteLength) return undefined
    if (tiff.getUint16(entry, little) !== TAG_ORIENTATION) continue
    const value = tiff.getUint16(entry + 8, little)
    return value >= 1 && value <= 8 ? value : undefined
  }
  return undefined
}
