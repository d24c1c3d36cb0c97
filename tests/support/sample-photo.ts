import { crc32, deflateSync } from 'node:zlib'

/** An invented picture: a plain ramp of grey, as a PNG in RGB (W3C PNG, 5.3 chunk layout). */
export function samplePng(widthPx: number, heightPx: number): Uint8Array {
  const rows = Buffer.alloc(heightPx * (1 + 3 * widthPx))
  for (let y = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++)
      rows.fill((x + y) % 256, y * (1 + 3 * widthPx) + 1 + 3 * x, y * (1 + 3 * widthPx) + 4 + 3 * x)
  }
  const head = Buffer.alloc(13)
  head.writeUInt32BE(widthPx, 0)
  head.writeUInt32BE(heightPx, 4)
  head.set([8, 2, 0, 0, 0], 8)
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', head),
    chunk('IDAT', deflateSync(rows)),
    chunk('IEND', Buffer.alloc(0)),
  ])
}

/** The same file with the checksum of every chunk worked out anew: for damage that they do not show. */
export function withChecksums(png: Uint8Array): Uint8Array {
  const mended = Buffer.from(png)
  for (let at = 8; at + 12 <= mended.length;) {
    const end = at + 8 + mended.readUInt32BE(at)
    mended.writeUInt32BE(crc32(mended.subarray(at + 4, end)), end)
    at = end + 4
  }
  return mended
}

function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data])
  const framed = Buffer.alloc(body.length + 8)
  framed.writeUInt32BE(data.length, 0)
  framed.set(body, 4)
  framed.writeUInt32BE(crc32(body), body.length + 4)
  return framed
}
