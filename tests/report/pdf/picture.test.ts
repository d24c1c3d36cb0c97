import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { matrixOf, openPicture } from '../../../src/report/pdf/picture.ts'
import { sampleJpegHead } from '../../support/sample-jpeg.ts'

const BOX = { xPt: 100, yPt: 50, widthPt: 40, heightPt: 20 }

/** Where a point of the stored picture (0..1 to the right, 0..1 downwards) lands: PDF's unit square counts upwards. */
function landing(orientation: number, [right, down]: readonly [number, number]): string {
  const [a, b, c, d, e, f] = matrixOf(orientation, BOX) as [number, number, number, number, number, number]
  const [u, v] = [right, 1 - down]
  const [x, y] = [a * u + c * v + e, b * u + d * v + f]
  return `${y === 50 ? 'top' : 'bottom'} ${x === 100 ? 'left' : 'right'}`
}

/** EXIF 2.3, tag 0x0112: where the 0th row and the 0th column are seen; so the stored top left corner, then the top right. */
describe.each([
  [1, 'top left', 'top right'],
  [2, 'top right', 'top left'],
  [3, 'bottom right', 'bottom left'],
  [4, 'bottom left', 'bottom right'],
  [5, 'top left', 'bottom left'],
  [6, 'top right', 'bottom right'],
  [7, 'bottom right', 'top right'],
  [8, 'bottom left', 'top left'],
])('orientation %i', (orientation, topLeft, topRight) => {
  test('puts the stored corners where they are seen', () => {
    expect(landing(orientation, [0, 0])).toBe(topLeft)
    expect(landing(orientation, [1, 0])).toBe(topRight)
  })
})

describe('what goes into the file', () => {
  const fixture = (name: string) => readFileSync(new URL(`../../fixtures/pictures/${name}`, import.meta.url))

  test('a JPEG as it is, its size as seen upright', () => {
    const data = sampleJpegHead({ orientation: 6 })
    const picture = openPicture(data)!
    expect(picture).toMatchObject({
      widthPx: 300,
      heightPx: 200,
      entries: { Width: 200, Height: 300, Filter: 'DCTDecode', ColorSpace: 'DeviceRGB' },
    })
    expect(picture.data).toBe(data)
  })
  test('a plain PNG as it is packed; one with opacity or interlace as pixels without a filter or a mask', () => {
    expect(openPicture(fixture('rgb.png'))!.entries).toMatchObject({
      Filter: 'FlateDecode',
      BitsPerComponent: 8,
    })
    expect(openPicture(fixture('palette.png'))!.entries.ColorSpace).toMatchObject([
      'Indexed',
      'DeviceRGB',
      expect.any(Number),
      expect.anything(),
    ])
    for (const name of ['rgb-alpha.png', 'rgb-interlaced.png', 'palette-alpha.png']) {
      const { entries, data } = openPicture(fixture(name))!
      expect(entries).not.toHaveProperty('Filter')
      expect(entries).not.toHaveProperty('SMask')
      expect(data).toHaveLength(7 * 5 * 3)
    }
  })
  test('16 bit of another program stay 16 bit', () => {
    expect(openPicture(fixture('rgb-16.png'))!.entries).toMatchObject({
      Width: 7,
      Height: 5,
      BitsPerComponent: 16,
      ColorSpace: 'DeviceRGB',
    })
    expect(openPicture(fixture('grey-16.png'))!.entries).toMatchObject({
      Width: 7,
      Height: 5,
      BitsPerComponent: 16,
      ColorSpace: 'DeviceGray',
    })
  })
  test('damage behind a sound head is no picture', () => {
    const bent = Uint8Array.from(fixture('rgb.png'))
    const idat = Buffer.from(bent).indexOf('IDAT')
    bent.fill(0xff, idat + 4, idat + 12)
    expect(openPicture(bent)).toBeUndefined()
  })
})
