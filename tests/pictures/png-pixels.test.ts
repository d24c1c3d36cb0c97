import { readFileSync } from 'node:fs'
import { crc32 } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { lookAtPicture } from '../../src/pictures/look-at-picture.ts'
import { pngParts } from '../../src/pictures/png-head.ts'
import { opaquePixels } from '../../src/pictures/png-pixels.ts'
import { samplePng, withChecksums } from '../support/sample-photo.ts'

const FOLDER = new URL('../fixtures/pictures/', import.meta.url)

/**
 * Pictures written by ImageMagick 6.9 (those with a palette: by hand after W3C PNG), and their pixels on white as that program reads them: outside truth.
 * Invented content: ramps of colour over 7 by 5 pixels.
 */
const PIXELS = JSON.parse(readFileSync(new URL('pixels.json', FOLDER), 'utf8')) as Record<string, number[]>

describe('pixels as another program reads them', () => {
  test.each(Object.entries(PIXELS))('%s', (name, expected) => {
    const parts = pngParts(readFileSync(new URL(name, FOLDER)))
    if (typeof parts === 'string') throw new Error(parts)
    const pixels = [...opaquePixels(parts)!]
    expect(pixels).toHaveLength(expected.length)
    // Mixing with white is rounded in other places there; more than one step of 255 apart would be a fault.
    expect(Math.max(...pixels.map((value, i) => Math.abs(value - expected[i]!)))).toBeLessThanOrEqual(1)
  })
})

describe('damage', () => {
  const png = samplePng(32, 20)
  const idat = Buffer.from(png).indexOf('IDAT')
  const packed = Buffer.from(png).readUInt32BE(idat - 4)
  const changed = (change: (copy: Uint8Array) => void): Uint8Array => {
    const copy = Uint8Array.from(png)
    change(copy)
    return copy
  }
  const height = (rows: number) =>
    withChecksums(changed((copy) => new DataView(copy.buffer).setUint32(20, rows)))
  const pixelsOf = (data: Uint8Array) => {
    const parts = pngParts(data)
    return typeof parts === 'string' ? parts : opaquePixels(parts)
  }
  test.each<[string, Uint8Array]>([
    ['bytes that do not unpack', withChecksums(changed((copy) => copy.fill(0xff, 45, 60)))],
    [
      'a wrong checksum of the pixels (Adler-32)',
      withChecksums(changed((copy) => void copy[idat + 4 + packed - 1]!++)),
    ],
    ['too few rows', height(21)],
    ['more rows than announced: what a reader of the report would have to unpack', height(2)],
  ])('%s', async (_, data) => {
    expect(pixelsOf(data)).toBeUndefined()
    expect(await lookAtPicture(data)).toEqual({ ok: false, why: 'damaged' })
  })
  test('each bit of its chunks is covered by a checksum', async () => {
    for (let at = 8; at < png.length; at++) {
      const look = await lookAtPicture(changed((copy) => void (copy[at]! ^= 1 << (at % 8))))
      expect([at, look.ok]).toEqual([at, false])
    }
    expect((await lookAtPicture(png)).ok).toBe(true)
  })
  test('a head of so many chunks that a list would be copied for each takes no time', () => {
    const empty = Buffer.from('0000000049444154', 'hex') // IDAT without data
    const sum = Buffer.alloc(4)
    sum.writeUInt32BE(crc32(empty.subarray(4)))
    const many = Buffer.concat([
      png.subarray(0, idat - 4),
      Buffer.alloc(12 * 300_000, Buffer.concat([empty, sum])),
      png.subarray(idat - 4),
    ])
    const start = process.cpuUsage().user
    expect(pngParts(many)).toMatchObject({ widthPx: 32 })
    expect((process.cpuUsage().user - start) / 1e6).toBeLessThan(3)
  })
})
