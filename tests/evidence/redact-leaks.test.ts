import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { placeOfCopy, redactJob } from '../../src/evidence/redact-job.ts'
import { reportJob } from '../../src/batch/report-job.ts'
import { madeForCall } from '../../src/evidence/made-for-call.ts'
import { smallJob } from '../bench/fuzz/small-job.ts'
import { REDACTABLE_FIELDS } from '../../src/records/redact/fields.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { readRaw } from '../support/pdf-raw.ts'
import { allText, flat, openPdf, pageTags } from '../support/read-pdf.ts'
import { samplePng } from '../support/sample-photo.ts'

/** Invented words, each nowhere else in a report. */
const PLANTED = {
  customer: ['Zorquin Haulage', 'zorquin-desk', 'Zref-8841'],
  technician: ['Vexley Tarn', 'Cert-Vx-77'],
  shop: ['Plumbrake Garage', 'Umberway 9', '0555 77120', 'desk@plumbrake.example', 'Reg-Pb-31'],
  vin: ['1M8GDM9AXKP042788'],
  plate: ['KRZ 4471'],
  unit: ['Fleetno-6620'],
  words: ['wobbles oddly at Zenith Pass', 'perished grommet', 'fitted new grommet'],
} as const
const ALL = Object.values(PLANTED).flat()
/** The same in near forms: spread out, with a digit or a hyphen in it, over a line end, glued to others, mistyped. */
const NEAR = ['Z o r q u i n', 'Z0rquin', 'ZOR-QUIN', 'Zor-\nquin', 'Zorqiun', 'IMG_Zorquin2', 'krz-4471']
const [customer, technician] = [PLANTED.customer[0], PLANTED.technician[0]]
const job = (text: string) =>
  text
    .replace(
      /^shop: .*$/m,
      `shop: { name: ${PLANTED.shop[0]}, address: ${PLANTED.shop[1]}, phone: "${PLANTED.shop[2]}", email: ${PLANTED.shop[3]}, registration: ${PLANTED.shop[4]} }`,
    )
    .replace(
      /^technician: .*$/m,
      `technician: { name: ${technician}, certificate: ${PLANTED.technician[1]} }\ncustomer: { name: ${customer}, contact: ${PLANTED.customer[1]}, reference: ${PLANTED.customer[2]} }`,
    )
    .replace(
      /^vehicle: .*$/m,
      `vehicle: { vin: ${PLANTED.vin[0]}, plate: ${PLANTED.plate[0]}, unit_number: ${PLANTED.unit[0]}, make: Invented, model: ${customer} Special }`,
    )
    .replace(
      /^complaint: .*$/m,
      `complaint: ${PLANTED.words[0]}\ncause: ${PLANTED.words[1]}\ncorrection: ${PLANTED.words[2]}`,
    )
    .replace(
      'voltage_uncertainty_percent: 5',
      `voltage_uncertainty_percent: 5, description: "scope of ${technician}, ${PLANTED.vin[0].toLowerCase()}"`,
    ) +
  `photos:\n  - { file: "photos/IMG_Zorquin2 KRZ 4471.png", caption: "engine of ${customer}, ${PLANTED.plate[0]}", stage: before }\n`
const log = (text: string) =>
  `${text.replace('intake joint', `joint by ${customer}`)}2026-03-04T09:40,note,,,,,,"${technician} rang ZORQUIN  HAULAGE about ${PLANTED.plate[0]} (${PLANTED.unit[0]}); ${NEAR.slice(0, 5).join(', ')}, ${NEAR[6]!}"\n`

const texts = loadTexts('en')
const options = { page: 'A4', version: '0.1.0', embedCaptures: true } as const
let root: string
let original: string
let copy: string
beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'burnline-leaks-'))
  const folder = join(root, 'job')
  for (const [file, bytes] of [
    ...smallJob(),
    ['photos/IMG_Zorquin2 KRZ 4471.png', Buffer.from(samplePng(40, 30))] as const,
  ]) {
    mkdirSync(dirname(join(folder, file)), { recursive: true })
    const text = bytes.toString('utf8')
    writeFileSync(
      join(folder, file),
      file === 'job.yaml' ? job(text) : file === 'test-log.csv' ? log(text) : bytes,
    )
  }
  const outcome = await reportJob(
    { folder, why: [] },
    { outRoot: join(root, 'outputs'), options, made: madeForCall(options, texts), texts },
  )
  if (outcome.state !== 'reported') throw new Error(JSON.stringify(outcome))
  original = outcome.output
  copy = (
    await redactJob(folder, {
      outRoot: join(root, 'copies'),
      fields: REDACTABLE_FIELDS,
      near: 'mask',
      options,
      texts,
    })
  ).output
}, 240_000)
afterAll(() => rmSync(root, { recursive: true, force: true }))

/** Everything an output says, by place: names, texts, and of the PDF every unpacked stream, dictionary, text, alternative text and attachment. */
async function everything(folder: string): Promise<Map<string, string>> {
  const said = new Map<string, string>()
  for (const file of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
    said.set(`name ${file}`, file)
    if (/\.(json|csv|svg|txt)$/.test(file)) said.set(file, readFileSync(join(folder, file), 'utf8'))
  }
  const bytes = readFileSync(join(folder, 'report.pdf'))
  for (const { id, dict, data } of readRaw(bytes).objects.values()) {
    said.set(`object ${id}`, pdfStrings(dict))
    if (data)
      said.set(
        `stream ${id}`,
        `${Buffer.from(data).toString('utf8')} ${pdfStrings(Buffer.from(data).toString('latin1'))}`,
      )
  }
  const doc = await openPdf(bytes)
  said.set('text', await allText(doc))
  said.set('information', JSON.stringify(await doc.getMetadata()))
  said.set('bookmarks', JSON.stringify(await doc.getOutline()))
  const tags = await Promise.all(Array.from({ length: doc.numPages }, (_, i) => pageTags(doc, i + 1)))
  said.set(
    'alternative texts',
    tags
      .flatMap((tag) => flat(tag))
      .map(({ alt }) => alt ?? '')
      .join('\n'),
  )
  for (const [name, { content, description }] of Object.entries(
    (await doc.getAttachments()) as Record<string, { content: Uint8Array; description: string }>,
  )) {
    said.set(`attachment ${name}`, `${name} ${description} ${Buffer.from(content).toString('utf8')}`)
  }
  return said
}

/** A dictionary's text as it stands, and its strings read as UTF-16 too (ISO 32000-2, 7.9.2.2). */
const pdfStrings = (text: string): string =>
  `${text} ${Buffer.from(text, 'latin1').toString('utf8')} ${text.replaceAll('\0', '')} ${[
    ...text.matchAll(/<((?:[0-9a-fA-F]{2})+)>/g),
  ]
    .map(([, hex]) => Buffer.from(hex!, 'hex').toString('latin1').replaceAll('\0', ''))
    .join(' ')}`

const plain = (text: string) => text.toLowerCase().replace(/\s+/g, ' ')
const placesOf = (said: ReadonlyMap<string, string>, word: string) =>
  [...said].filter(([, text]) => plain(text).includes(plain(word))).map(([place]) => place)

describe('a copy without any of the words that can be withheld', () => {
  test('the search finds each of them in the original: in files, in the PDF’s text and in its metadata', async () => {
    const said = await everything(original)
    for (const word of ALL)
      expect([word, placesOf(said, word)]).toEqual([
        word,
        expect.arrayContaining(['result.json', 'text', 'attachment result.json']),
      ])
    expect(placesOf(said, 'KRZ 4471.png').length).toBeGreaterThan(3)
    for (const near of NEAR.filter((each) => !each.includes('\n')))
      expect([near, placesOf(said, near)]).toEqual([near, expect.arrayContaining(['result.json'])])
  })

  test('none of them is left anywhere in the copy', async () => {
    const said = await everything(copy)
    expect(said.size).toBeGreaterThan(100)
    const leaks = [...ALL, ...NEAR].flatMap((word) =>
      placesOf(said, word).map((place) => `${word}: ${place}`),
    )
    expect(leaks).toEqual([])
  })

  test('nor a photo, a raw capture, or the digest of a written input', async () => {
    const said = await everything(copy)
    expect([...said.keys()].filter((place) => /^attachment (captures|photos)/.test(place))).toEqual([])
    const { inputs } = JSON.parse(readFileSync(join(original, 'manifest.json'), 'utf8')) as {
      inputs: { file: string; sha256: string }[]
    }
    for (const { file, sha256 } of inputs.filter((input) => /job\.yaml|test-log/.test(input.file)))
      expect([file, placesOf(said, sha256)]).toEqual([file, []])
  })
})

test('a copy whose masked work order names one that stands is refused; its own place may be written again', () => {
  const outRoot = join(root, 'named')
  mkdirSync(join(outRoot, 'KB-[x].redacted'), { recursive: true })
  expect(() => placeOfCopy(outRoot, 'KB-[x]', 'KB-4471')).toThrow(
    expect.objectContaining({ problems: [expect.objectContaining({ code: 'copies-of-one-name' })] }),
  )
  expect(placeOfCopy(outRoot, 'KB-[x]', 'KB-[x]')).toBe(join(outRoot, 'KB-[x].redacted'))
  expect(placeOfCopy(outRoot, 'KB-[y]', 'KB-4472')).toBe(join(outRoot, 'KB-[y].redacted'))
})
