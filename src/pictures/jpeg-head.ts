import { exifOrientation } from './exif-orientation.ts'
import type { PictureLook } from './picture-look.ts'

/** Frames that PDF's DCTDecode knows: baseline, extended (8 bit), progressive. */
const KNOWN_FRAMES = [0xc0, 0xc1, 0xc2]
const START_OF_SCAN = 0xda
const APP1 = 0xe1
const PDF_BITS = 8

/**
 * Reads a JPEG's segments up to the first scan, and looks for the end mark behind it.
 * @source ITU-T T.81 B.1.1 (markers), B.2.2 (frame header); ISO 32000-1 7.4.8 (DCTDecode)
 */
export function readJpegHead(data: Uint8Array): PictureLook {
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength)
  let orientation: number | undefined
  let frame: PictureLook | undefined
  let at = 2
  while (at + 4 <= data.length && data[at] === 0xff) {
    const marker = data[at + 1]!
    if (marker === 0xff) {
      at++
      continue
    }
    if (marker === START_OF_SCAN) return finished(data, { frame, orientation, from: at })
    const length = view.getUint16(at + 2)
    if (length < 2) return { ok: false, why: 'broken' }
    if (at + 2 + length > data.length) return { ok: false, why: 'cut-off' }
    const segment = new DataView(data.buffer, data.byteOffset + at + 4, length - 2)
    if (marker === APP1) orientation ??= exifOrientation(segment)
    if (isFrame(marker)) frame ??= readFrame(marker, segment)
    at += 2 + length
  }
  return { ok: false, why: at + 4 > data.length ? 'cut-off' : 'broken' }
}

/** SOF0 to SOF15, less the three markers among them that are no frames. */
const isFrame = (marker: number) => marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker)

function readFrame(marker: number, segment: DataView): PictureLook {
  if (segment.byteLength < 6) return { ok: false, why: 'broken' }
  const [bits, heightPx, widthPx, colours] = [
    segment.getUint8(0),
    segment.getUint16(1),
    segment.getUint16(3),
    segment.getUint8(5),
  ]
  if (!KNOWN_FRAMES.includes(marker) || bits !== PDF_BITS) return { ok: false, why: 'unsupported' }
  if (colours === 4) return { ok: false, why: 'ink-colours' }
  if (colours !== 1 && colours !== 3) return { ok: false, why: 'unsupported' }
  // A height of 0 is given later by a DNL segment, which PDF does not know.
  if (widthPx === 0 || heightPx === 0) return { ok: false, why: 'broken' }
  return { ok: true, head: { format: 'jpeg', widthPx, heightPx, orientation: 1, colours } }
}

/** Coded pixels hold no end mark of their own (a 0xFF among them is stuffed), so its lack means that the end is missing. */
function finished(
  data: Uint8Array,
  read: { frame: PictureLook | undefined; orientation: number | undefined; from: number },
): PictureLook {
  const { frame, orientation = 1, from } = read
  if (!frame) return { ok: false, why: 'broken' }
  if (!frame.ok) return frame
  for (let i = data.length - 1; i > from; i--) {
    if (data[i] === 0xd9 && data[i - 1] === 0xff) return { ok: true, head: { ...frame.head, orientation } }
  }
  return { ok: false, why: 'cut-off' }
}
