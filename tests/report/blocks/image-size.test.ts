import { describe, expect, test } from 'vitest'
import { imageSize } from '../../../src/report/blocks/image-size.ts'
import { samplePng } from '../../support/sample-photo.ts'

/** A JPEG's head alone (ITU-T T.81, B.2.2): EXIF orientation, then a frame of so many colours. */
function jpegHead({ orientation, colours }: { orientation: number; colours: number }): Uint8Array {
  const exif = [0xff, 0xe1, 0, 34, 0x45, 0x78, 0x69, 0x66, 0, 0, 0x4d, 0x4d, 0, 42, 0, 0, 0, 8, 0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0, 0, 0, 0, 0]
  const frame = [0xff, 0xc0, 0, 8 + 3 * colours, 8, 0x01, 0x2c, 0x00, 0xc8, colours, ...Array.from({ length: 3 * colours }, () => 1)]
  return new Uint8Array([0xff, 0xd8, ...exif, ...frame])
}

describe('image size', () => {
  test('of a PNG', () => expect(imageSize(samplePng(32, 20))).toEqual({ widthPx: 32, heightPx: 20 }))
  test('of a JPEG, 300 high and 200 wide', () => expect(imageSize(jpegHead({ orientation: 1, colours: 3 }))).toEqual({ widthPx: 200, heightPx: 300 }))
  test('of a JPEG lying on its side', () => expect(imageSize(jpegHead({ orientation: 6, colours: 3 }))).toEqual({ widthPx: 300, heightPx: 200 }))
  test('refuses ink colours, other formats and stumps', () => {
    expect(imageSize(jpegHead({ orientation: 1, colours: 4 }))).toBeUndefined()
    expect(imageSize(new TextEncoder().encode('GIF89a and more'))).toBeUndefined()
    expect(imageSize(new Uint8Array([0xff, 0xd8, 0xff]))).toBeUndefined()
    expect(imageSize(new Uint8Array())).toBeUndefined()
  })
})
