import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { inspectJob } from '../../src/job/inspect-job.ts'
import { readingLimits } from '../../src/limits/reading-limits.ts'
import { EXAMPLE_FILES, EXAMPLE_JOB } from '../bench/fuzz/example-job.ts'
import { sampleJpegHead } from '../support/sample-jpeg.ts'
import { samplePng, withChecksums } from '../support/sample-photo.ts'

const folders: string[] = []
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true })
})

/** Codes found in the example job with this photo instead of its own. */
async function codesWith(
  photo: Uint8Array,
  name = 'photos/joint.jpg',
  photoBytes = readingLimits().photoBytes,
): Promise<string[]> {
  const folder = mkdtempSync(join(tmpdir(), 'photos-'))
  folders.push(folder)
  const files = { ...EXAMPLE_FILES, [name]: photo, 'job.yaml': EXAMPLE_JOB.replace('photos/joint.jpg', name) }
  for (const [file, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, file)), { recursive: true })
    writeFileSync(join(folder, file), content)
  }
  const { problems } = await inspectJob(folder, { ...readingLimits(), photoBytes })
  return problems
    .filter(({ code }) => /image|picture|too-large/.test(code))
    .map((p) => `${p.severity} ${p.code}${p.line ? '' : ' nowhere'}`)
}

/** Pictures written by ImageMagick 6.9: outside truth. Invented content. */
const made = (name: string) => readFileSync(new URL(`../fixtures/pictures/${name}`, import.meta.url))
const cut = (data: Uint8Array) => data.subarray(0, Math.floor(data.length * 0.7))

/** One bit of the packed pixels. */
function turned(data: Uint8Array): Uint8Array {
  const copy = Uint8Array.from(data)
  copy[Buffer.from(data).indexOf('IDAT') + 8]! ^= 1
  return copy
}

/** A PNG whose head claims 30 000 by 30 000 pixels, 2.7 GB unpacked, over the packed pixels of a small one. */
function claiming(): Uint8Array {
  const png = Uint8Array.from(samplePng(8, 8))
  const view = new DataView(png.buffer)
  view.setUint32(16, 30_000)
  view.setUint32(20, 30_000)
  return withChecksums(png)
}

test.each<[string, Uint8Array, string | undefined, string[]]>([
  ['a JPEG of another program', made('rgb.jpg'), undefined, []],
  ['a PNG of 16 bit', made('rgb-16.png'), 'photos/joint.png', []],
  ['a PNG of 16 bit in grey', made('grey-16.png'), 'photos/joint.png', []],
  ['a JPEG in ink colours of another program', made('cmyk.jpg'), undefined, ['refuse picture-colours']],
  ['a JPEG of another program, cut off', cut(made('rgb.jpg')), undefined, ['refuse picture-broken']],
  ['a PNG cut off', cut(made('rgb.png')), 'photos/joint.png', ['refuse picture-broken']],
  ['a JPEG named as a PNG', made('rgb.jpg'), 'photos/joint.png', ['warn picture-mislabelled']],
  ['a PNG that claims 30 000 by 30 000', claiming(), 'photos/joint.png', ['refuse picture-too-large']],
  [
    'a PNG with a bit turned in its pixels',
    turned(made('rgb.png')),
    'photos/joint.png',
    ['refuse picture-broken'],
  ],
  ['a JPEG', sampleJpegHead(), undefined, []],
  ['a PNG under its own name', samplePng(8, 8), 'photos/joint.PNG', []],
  ['a PNG named as a JPEG', samplePng(8, 8), undefined, ['warn picture-mislabelled']],
  ['another format named as a JPEG', new TextEncoder().encode('GIF89a'), undefined, ['refuse not-an-image']],
  ['nothing', new Uint8Array(), undefined, ['refuse not-an-image']],
  ['a JPEG cut off', sampleJpegHead({ whole: false }), undefined, ['refuse picture-broken']],
  ['a JPEG in ink colours', sampleJpegHead({ colours: 4 }), undefined, ['refuse picture-colours']],
  [
    'a pixel bomb',
    sampleJpegHead({ widthPx: 65_000, heightPx: 65_000 }),
    undefined,
    ['refuse picture-too-large'],
  ],
])('%s', async (_, photo, name, codes) => expect(await codesWith(photo, name)).toEqual(codes))

test('a file beyond the bytes allowed is not read whole', async () => {
  expect(await codesWith(samplePng(64, 64), undefined, 100)).toEqual(['refuse too-large nowhere'])
})
