import { beforeAll, expect, test } from 'vitest'
import { renderReport } from '../../src/report/render-report.ts'
import { embeddedFiles as embeddedIn } from '../../src/seal/embedded-files.ts'
import { PdfFile } from '../../src/seal/pdf-file.ts'
import { checkPdfSeal, sealPdf } from '../../src/seal/seal-pdf.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { openPdf } from '../support/read-pdf.ts'
import { sampleJob, sampleTexts } from '../support/sample-result.ts'
import { shop, stranger } from './keys.ts'

const ATTACHED = [
  { name: 'result.json', text: '{"a":1}\n', mime: 'application/json' },
  { name: 'captures/Ölung (1) \\ 2.csv', text: 'time,kv\r\n0,1\r\n'.repeat(2000), mime: 'text/csv' },
  { name: 'empty.csv', text: '', mime: 'text/csv' },
]
const embeddedFiles = async (pdf: Uint8Array) =>
  embeddedIn(new PdfFile(pdf), new Map(ATTACHED.map(({ name }) => [name, 'all'] as const)))
let blank: Uint8Array
let sealed: Uint8Array
beforeAll(async () => {
  const { result, traces } = sampleJob({ cylinders: 4, bare: true })
  const attachments = ATTACHED.map(({ name, text, mime }) => ({
    name,
    data: Buffer.from(text),
    mime,
    relationship: 'Data' as const,
    description: 'attachment.capture',
  }))
  blank = await renderReport({
    result,
    traces,
    texts: sampleTexts(),
    attachments,
    photos: new Map(),
    page: 'A4',
  })
  sealed = sealPdf(blank, shop)
})
const codes = (pdf: Uint8Array, key?: string) =>
  checkPdfSeal(pdf, 'report.pdf', key).map((f) => `${f.severity} ${f.code}`)
const flipped = (pdf: Uint8Array, at: number, bit: number) => {
  const copy = Uint8Array.from(pdf)
  copy[at]! ^= 1 << bit
  return copy
}

test('a report holds with and without a signature; the bytes given stay as they were', () => {
  const before = Buffer.from(blank)
  expect(codes(sealPdf(blank))).toEqual(['note unsigned'])
  expect(codes(sealed)).toEqual(['note signed'])
  expect(codes(sealed, shop.publicKey)).toEqual(['note signed'])
  expect(codes(sealed, stranger.publicKey)).toEqual(['broken other-key'])
  expect(before.equals(blank)).toBe(true)
})

test('a change of any byte is found: every bit of head and tail, and a bit of 3 000 bytes between', () => {
  const random = makeRandom(20260304)
  const ends = Array.from({ length: 600 }, (_, i) => (i < 340 ? i : sealed.length - 600 + i))
  const quiet = [
    ...ends.flatMap((at) => Array.from({ length: 8 }, (_, bit) => ({ at, bit }))),
    ...Array.from({ length: 3000 }, () => ({
      at: Math.floor(random.uniform() * sealed.length),
      bit: Math.floor(random.uniform() * 8),
    })),
  ].filter(({ at, bit }) => !codes(flipped(sealed, at, bit)).some((code) => code.startsWith('broken')))
  expect(quiet).toEqual([])
})

test('bytes put in, left out or added at the end are found', () => {
  for (const changed of [
    sealed.subarray(0, -1),
    Buffer.concat([sealed, Buffer.from('\n')]),
    Buffer.concat([sealed.subarray(0, 900), sealed.subarray(901)]),
  ]) {
    expect(codes(changed)).toEqual(['broken pdf-changed'])
  }
  expect(codes(new Uint8Array())).toEqual(['broken not-a-pdf'])
  expect(codes(Buffer.from('%PDF-1.7\n'))).toEqual(['broken pdf-unsealed'])
})

test('other readers read a sealed report as before', async () => {
  const doc = await openPdf(sealed)
  expect(doc.numPages).toBeGreaterThan(1)
})

test('embedded files are those put in, and those another reader finds', async () => {
  const files = await embeddedFiles(sealed)
  expect([...files].map(([name, { data }]) => [name, Buffer.from(data!).toString('utf8')]).sort()).toEqual(
    ATTACHED.map(({ name, text }) => [name, text]).sort(),
  )
  const others = (await (await openPdf(sealed)).getAttachments()) as Record<string, { content: Uint8Array }>
  const contents = (list: Iterable<Uint8Array>) =>
    [...list].map((bytes) => Buffer.from(bytes).toString('latin1')).sort()
  expect(contents(Object.values(others).map(({ content }) => content))).toEqual(
    contents([...files.values()].map(({ data }) => data!)),
  )
})

test('a damaged file throws or gives other bytes; it never hangs', async () => {
  const random = makeRandom(7)
  for (let turn = 0; turn < 300; turn++) {
    const damaged = flipped(
      sealed,
      Math.floor(random.uniform() * sealed.length),
      Math.floor(random.uniform() * 8),
    )
    try {
      await embeddedFiles(damaged)
    } catch (cause) {
      expect(cause).toBeInstanceOf(Error)
    }
  }
  for (const cut of [0, 10, 100, 5000]) await expect(embeddedFiles(sealed.subarray(0, cut))).rejects.toThrow()
})
