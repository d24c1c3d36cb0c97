import { describe, expect, test } from 'vitest'
import { readPictureHead, uprightSize } from '../../src/pictures/picture-head.ts'
import { sampleJpegHead } from '../support/sample-jpeg.ts'
import { samplePng, withChecksums } from '../support/sample-photo.ts'

const why = (data: Uint8Array) => {
  const look = readPictureHead(data)
  return look.ok ? 'ok' : look.why
}
const ascii = (text: string) => new TextEncoder().encode(text)

describe('JPEG', () => {
  test('200 wide and 300 high as stored; turned by EXIF orientations 5 to 8 (EXIF 2.3, tag 0x0112)', () => {
    for (let orientation = 1; orientation <= 8; orientation++) {
      const look = readPictureHead(sampleJpegHead({ orientation }))
      if (!look.ok) throw new Error(look.why)
      expect(look.head).toMatchObject({
        format: 'jpeg',
        widthPx: 200,
        heightPx: 300,
        orientation,
        colours: 3,
      })
      expect(uprightSize(look.head)).toEqual(
        orientation >= 5 ? { widthPx: 300, heightPx: 200 } : { widthPx: 200, heightPx: 300 },
      )
    }
  })
  test('an orientation that does not exist is none', () => {
    expect(readPictureHead(sampleJpegHead({ orientation: 9 }))).toMatchObject({
      ok: true,
      head: { orientation: 1 },
    })
  })
  test.each([
    ['grey', { colours: 1 }, 'ok'],
    ['progressive', { frame: 0xc2 }, 'ok'],
    ['four ink colours', { colours: 4 }, 'ink-colours'],
    ['lossless', { frame: 0xc3 }, 'unsupported'],
    ['arithmetic', { frame: 0xc9 }, 'unsupported'],
    ['two components', { colours: 2 }, 'unsupported'],
    ['cut off', { whole: false }, 'cut-off'],
    ['no width', { widthPx: 0 }, 'broken'],
    ['more pixels than a camera makes', { widthPx: 60_000, heightPx: 60_000 }, 'too-large'],
  ] as const)('%s', (_, of, expected) => expect(why(sampleJpegHead(of))).toBe(expected))
  test('every beginning of it is refused, none throws', () => {
    const whole = sampleJpegHead()
    for (let end = 0; end < whole.length; end++)
      expect(['unknown', 'cut-off', 'broken']).toContain(why(whole.subarray(0, end)))
  })
})

describe('PNG', () => {
  const png = samplePng(32, 20)
  test('size', () =>
    expect(readPictureHead(png)).toMatchObject({
      ok: true,
      head: { format: 'png', widthPx: 32, heightPx: 20, orientation: 1 },
    }))
  test('every beginning of it is refused, none throws', () => {
    for (let end = 0; end < png.length; end++)
      expect(['unknown', 'cut-off', 'broken']).toContain(why(png.subarray(0, end)))
  })
  test('a head that announces billions of pixels is refused without unpacking', () => {
    const bomb = Uint8Array.from(png)
    new DataView(bomb.buffer).setUint32(16, 0x7fffffff)
    expect(why(withChecksums(bomb))).toBe('too-large')
  })
  test('depths and types that do not go together', () => {
    const odd = Uint8Array.from(png)
    odd[24] = 4 // 4 bit of three colours: W3C PNG, table 11.1
    expect(why(withChecksums(odd))).toBe('broken')
  })
})

test('other formats by their first bytes, whatever their name', () => {
  for (const head of ['GIF89a and more', 'BM and more', '%PDF-1.7', 'RIFF????WEBP', '<svg/>', ''])
    expect(why(ascii(head))).toBe('unknown')
})
