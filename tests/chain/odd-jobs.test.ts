import { generateKeyPairSync } from 'node:crypto'
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { NO_STORE } from '../../src/chain/measured-store.ts'
import { runJob, type JobOptions } from '../../src/chain/run-job.ts'
import { LANGUAGES, loadTexts, type Language } from '../../src/texts/load-texts.ts'
import { breaches } from '../support/conformance/conformance.ts'

/** Reports from odd job folders, from the folder to the file, against the rules of PDF/A-3a and PDF/UA-1. */

let root: string
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'burnline-odd-'))
})
afterAll(() => rmSync(root, { recursive: true, force: true }))

const options = (more: Partial<JobOptions> = {}): JobOptions => ({
  page: 'A4',
  version: '0',
  embedCaptures: false,
  program: 'test',
  store: NO_STORE,
  ...more,
})

/** A copy of the smallest demo job with lines of job.yaml put in place of others. */
function copyOf(name: string, changes: readonly [RegExp, string][] = []): string {
  const folder = join(root, name)
  cpSync(fileURLToPath(new URL('../../inputs/third-cylinder-valve', import.meta.url)), folder, {
    recursive: true,
  })
  const changed = changes.reduce(
    (text, [from, to]) => {
      expect(text).toMatch(from)
      return text.replace(from, () => to)
    },
    readFileSync(join(folder, 'job.yaml'), 'utf8'),
  )
  writeFileSync(join(folder, 'job.yaml'), changed)
  return folder
}

async function pdfOf(
  folder: string,
  more: Partial<JobOptions> = {},
  language: Language = 'en',
): Promise<Uint8Array> {
  const { files } = await runJob(folder, options(more), loadTexts(language))
  return Buffer.from(files.get('report.pdf')!)
}

/** Words that hold what breaks a file that is not careful: marks of XML and PDF, other scripts and directions, signs beyond the first plane. */
const WORDS: readonly [string, string][] = [
  ['ampersands and brackets', 'Müller & Söhne <GmbH> "Auto" \'s (a\\b) ]]> &amp; %PDF'],
  ['emoji', 'Garage 🚗🔧 👩‍🔧 🇩🇪'],
  ['right to left', 'שלום מרחבא مرحبا بالعالم'],
  ['Chinese', '汽车修理厂 车辆抖动'],
  ['marks on letters', 'Ǻ ẹ́ Z̵ x̂ ﬁ ½ ‰'],
  ['a very long word', 'x'.repeat(400)],
]

describe('words of the job', () => {
  test.each(WORDS)('%s', async (name, words) => {
    const quoted = JSON.stringify(words)
    const folder = copyOf(`words ${name}`, [
      [/^ {2}name: .*$/m, `  name: ${quoted}`],
      [/^complaint: .*$/m, `complaint: ${quoted}`],
      [/^ {2}make: .*$/m, `  make: ${quoted}`],
    ])
    expect(breaches(await pdfOf(folder))).toEqual([])
  })
})

test.each(LANGUAGES)('in %s', async (language) =>
  expect(breaches(await pdfOf(copyOf(`in ${language}`), {}, language))).toEqual([]),
)

const PICTURES = fileURLToPath(new URL('../fixtures/pictures/', import.meta.url))

/** A job with these pictures of the fixtures as its photos. */
function withPhotos(name: string, files: readonly string[]): string {
  const folder = copyOf(name)
  mkdirSync(join(folder, 'photos'), { recursive: true })
  for (const file of files) cpSync(join(PICTURES, file), join(folder, 'photos', file))
  const entries = files
    .map(
      (file, i) =>
        `  - { file: photos/${file}, caption: ${JSON.stringify(i % 3 === 0 ? '' : `Photo ${i} & <more>`)} }\n`,
    )
    .join('')
  const yaml = readFileSync(join(folder, 'job.yaml'), 'utf8')
  expect(yaml).not.toMatch(/^photos:/m)
  writeFileSync(join(folder, 'job.yaml'), `${yaml.trimEnd()}\nphotos:\n${entries}`)
  return folder
}

test('photos of every kind that is taken: transparent, grey, of a palette, of 16 bit, interlaced; some with an empty caption', async () => {
  const files = readdirSync(PICTURES).filter((file) => /\.(png|jpg)$/.test(file) && file !== 'cmyk.jpg')
  expect(files.length).toBeGreaterThanOrEqual(12)
  expect(breaches(await pdfOf(withPhotos('photos', files), { page: 'LETTER' }))).toEqual([])
})

test('a photo in ink colours is refused, since no archival report could hold it', async () => {
  await expect(pdfOf(withPhotos('ink', ['cmyk.jpg']))).rejects.toMatchObject({
    problems: [{ code: 'picture-colours' }],
  })
})

test('captures embedded, and signed', async () => {
  const signingKeyPem = generateKeyPairSync('ed25519').privateKey.export({
    type: 'pkcs8',
    format: 'pem',
  }) as string
  expect(breaches(await pdfOf(copyOf('signed'), { embedCaptures: true, signingKeyPem }))).toEqual([])
})

test('made again after a change', async () => {
  const first = copyOf('first')
  const { files } = await runJob(first, options(), loadTexts('en'))
  const standing = join(root, 'standing')
  mkdirSync(standing)
  for (const [name, data] of files) if (!name.includes('/')) writeFileSync(join(standing, name), data)
  const again = copyOf('again', [[/^complaint: .*$/m, 'complaint: Another & longer one']])
  expect(breaches(await pdfOf(again, { replaces: standing }))).toEqual([])
})
