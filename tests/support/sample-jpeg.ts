/**
 * A JPEG's head with invented tables of no picture (ITU-T T.81, B.2.2): EXIF orientation, a frame of so many colours,
 * a scan's beginning, and the end mark.
 */
export function sampleJpegHead(
  of: {
    orientation?: number
    colours?: number
    frame?: number
    widthPx?: number
    heightPx?: number
    whole?: boolean
  } = {},
): Uint8Array {
  const { orientation = 1, colours = 3, frame = 0xc0, widthPx = 200, heightPx = 300, whole = true } = of
  const exif = [
    0xff,
    0xe1,
    0,
    34,
    0x45,
    0x78,
    0x69,
    0x66,
    0,
    0,
    0x4d,
    0x4d,
    0,
    42,
    0,
    0,
    0,
    8,
    0,
    1,
    0x01,
    0x12,
    0,
    3,
    0,
    0,
    0,
    1,
    0,
    orientation,
    0,
    0,
    0,
    0,
    0,
    0,
  ]
  const size = [heightPx >> 8, heightPx & 255, widthPx >> 8, widthPx & 255]
  const head = [
    0xff,
    frame,
    0,
    8 + 3 * colours,
    8,
    ...size,
    colours,
    ...Array.from({ length: 3 * colours }, () => 1),
  ]
  const scan = [0xff, 0xda, 0, 2, 1, 2, 3, 0xff, 0, 4]
  return new Uint8Array([0xff, 0xd8, ...exif, ...head, ...scan, ...(whole ? [0xff, 0xd9] : [])])
}
