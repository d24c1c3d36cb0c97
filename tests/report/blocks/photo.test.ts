import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { renderReport } from '../../../src/report/render-report.ts'
import { sampleJob, sampleTexts } from '../../support/sample-result.ts'
import { samplePng } from '../../support/sample-photo.ts'
import { openPdf, pageText } from '../../support/read-pdf.ts'

const JPEG = readFileSync(new URL('../../fixtures/pictures/rgb.jpg', import.meta.url)) // 24 wide, 16 high, invented, by ImageMagick 6.9
const PT_PER_INCH = 72
/** Coarsest print of a photo, dots per inch; common practice, no source: below some 100 the dots are seen at reading distance. */
const LEAST_DPI = 100

/** The JPEG with an EXIF orientation put in behind its start mark (EXIF 2.3, 4.5.2 and tag 0x0112). */
function turned(orientation: number): Uint8Array {
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
  return new Uint8Array([...JPEG.subarray(0, 2), ...exif, ...JPEG.subarray(2)])
}

/** Width and height, pt, that each photo of a report takes on paper, and the report's text. */
async function printed(
  photos: readonly Uint8Array[],
): Promise<{ sizes: [number, number][]; matrices: number[][]; text: string }> {
  const { result, traces } = sampleJob({ cylinders: 4, tests: 1, after: false, photos: photos.length })
  const files = new Map(result.job.photos.map(({ file }, i) => [file, photos[i]!]))
  const doc = await openPdf(
    await renderReport({ result, traces, texts: sampleTexts(), attachments: [], photos: files, page: 'A4' }),
  )
  const { OPS } = await import('pdfjs-dist/legacy/build/pdf.mjs')
  const matrices: number[][] = []
  const text: string[] = []
  for (let number = 1; number <= doc.numPages; number++) {
    const { fnArray, argsArray } = await (await doc.getPage(number)).getOperatorList()
    text.push(await pageText(doc, number))
    let last: number[] = []
    fnArray.forEach((op, i) => {
      if (op === OPS.transform) last = [...(argsArray[i] as number[])]
      if (op === OPS.paintImageXObject) matrices.push(last)
    })
  }
  return {
    matrices,
    sizes: matrices.map(([a, b, c, d]) => [Math.hypot(a!, c!), Math.hypot(b!, d!)]),
    text: text.join('\n'),
  }
}

/**
 * Which way of the stored picture (x along its rows, y down its columns) is seen to the right, and which downwards.
 * @source EXIF 2.3, tag 0x0112: 6, say, has its 0th row at the right and its 0th column at the top.
 */
const SIGNS: readonly (readonly [right: string, down: string])[] = [
  ['+x', '+y'],
  ['-x', '+y'],
  ['-x', '-y'],
  ['+x', '-y'],
  ['+y', '+x'],
  ['-y', '+x'],
  ['-y', '-x'],
  ['+y', '-x'],
]

describe('on the page', () => {
  test('each of the eight EXIF orientations stands upright, none enlarged beyond what its pixels bear', async () => {
    const { matrices, sizes } = await printed([1, 2, 3, 4, 5, 6, 7, 8].map(turned))
    expect(matrices).toHaveLength(8)
    const seen = matrices.map(([a, b, c, d]) => {
      // The page is turned to count downwards before anything is drawn; a picture's own square counts upwards anyway.
      const right = Math.abs(a!) > Math.abs(c!) ? `${a! > 0 ? '+' : '-'}x` : `${-c! > 0 ? '+' : '-'}y`
      const down = Math.abs(d!) > Math.abs(b!) ? `${-d! > 0 ? '+' : '-'}y` : `${b! > 0 ? '+' : '-'}x`
      return [right, down]
    })
    expect(seen).toEqual(SIGNS)
    sizes.forEach(([widthPt, heightPt], i) => {
      const [widthPx, heightPx] = i >= 4 ? [16, 24] : [24, 16]
      expect(widthPt / heightPt).toBeCloseTo(widthPx / heightPx, 2)
      expect(widthPt).toBeLessThanOrEqual((widthPx * PT_PER_INCH) / LEAST_DPI)
    })
  })

  test('a small photo is not enlarged, a large one is made to fit; one cut off behind its head is named, not left out', async () => {
    const cut = samplePng(400, 300).subarray(0, 200)
    const { sizes, text } = await printed([samplePng(30, 20), samplePng(1600, 900), cut])
    expect(sizes).toHaveLength(2)
    const [small, large] = sizes as [[number, number], [number, number]]
    expect(small[0]).toBeLessThanOrEqual((30 * PT_PER_INCH) / LEAST_DPI)
    expect(small[0] / small[1]).toBeCloseTo(1.5, 2)
    expect(large[0]).toBeLessThan(260)
    expect(large[0]).toBeGreaterThan(150)
    expect(large[0] / large[1]).toBeCloseTo(1600 / 900, 2)
    expect(text).toContain('photos/p3.png cannot be printed')
  })
})
