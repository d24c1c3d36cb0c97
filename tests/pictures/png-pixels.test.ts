import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { pngParts } from '../../src/pictures/png-head.ts'
import { opaquePixels } from '../../src/pictures/png-pixels.ts'
import { samplePng } from '../support/sample-photo.ts'

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
  const pixelsOf = (data: Uint8Array) => {
    const parts = pngParts(data)
    return typeof parts === 'string' ? parts : opaquePixels(parts)
  }
  test('pixels that do not unpack, or are too few, are none', () => {
    const bent = Uint8Array.from(png)
    bent.fill(0xff, 45, 60)
    expect(pixelsOf(bent)).toBeUndefined()
    const taller = Uint8Array.from(png)
    new DataView(taller.buffer).setUint32(20, 21)
    expect(pixelsOf(taller)).toBeUndefined()
  })
  test('more packed pixels than announced take no more room than announced', () => {
    const shorter = Uint8Array.from(png)
    new DataView(shorter.buffer).setUint32(20, 2)
    expect(pixelsOf(shorter)?.length ?? 0).toBeLessThanOrEqual(32 * 2 * 3)
  })
})
