import { describe, expect, test } from 'vitest'
import { revised } from '../../src/records/parts/revision.ts'
import { redactResult } from '../../src/records/redact/redact-result.ts'
import { renderReport, type Attachment } from '../../src/report/render-report.ts'
import { generateKeyPairSync } from 'node:crypto'
import { signerOf, type Signer } from '../../src/seal/signing-key.ts'
import { sealPdf } from '../../src/seal/seal-pdf.ts'
import { LANGUAGES, loadTexts, type Language } from '../../src/texts/load-texts.ts'
import { breaches } from '../support/conformance/conformance.ts'
import { samplePng } from '../support/sample-photo.ts'
import { sampleJob, sampleTexts, type SampleJob } from '../support/sample-result.ts'

const ATTACHMENTS: readonly Attachment[] = [
  {
    name: 'result.json',
    data: Buffer.from('{"invented": true}\n'),
    mime: 'application/json',
    relationship: 'Data',
    description: 'attachment.result.json',
  },
  {
    name: 'captures/\u00fcber (1).csv',
    data: Buffer.from('time_s\n'),
    mime: 'text/csv',
    relationship: 'Source',
    description: 'attachment.capture',
  },
  {
    name: 'captures/idle.csv.gz',
    data: new Uint8Array([31, 139, 0]),
    mime: 'application/gzip',
    relationship: 'Source',
    description: 'attachment.capture',
  },
  {
    name: 'empty.csv',
    data: new Uint8Array(),
    mime: 'text/csv',
    relationship: 'Data',
    description: 'attachment.tests.csv',
  },
]

type Made = ReturnType<typeof sampleJob>
async function render(
  { result, traces }: Made,
  how: { language?: Language; logo?: Uint8Array; signer?: Signer } = {},
): Promise<Uint8Array> {
  const texts = { ...loadTexts(how.language ?? 'en') }
  const templates = { ...sampleTexts().templates, ...texts.templates }
  const photos = new Map(
    result.job.photos.map(({ file }, i) => [
      file,
      i === 1 ? new Uint8Array([1, 2, 3]) : samplePng(60 + 90 * i, 40 + 30 * i),
    ]),
  )
  const bytes = await renderReport({
    result: { ...result, language: texts.language },
    traces,
    texts: { ...texts, templates },
    attachments: ATTACHMENTS,
    photos,
    page: result.page,
    ...(how.logo ? { logo: how.logo } : {}),
  })
  return sealPdf(bytes, how.signer)
}

const JOBS: readonly [string, SampleJob, Language?][] = [
  ['4 cylinders, before only, nothing optional', { cylinders: 4, after: false, bare: true }],
  ['6 cylinders, 3 photos, causes', { cylinders: 6, photos: 3, causes: true }],
  [
    '8 cylinders, Letter, long and foreign words, 12 photos',
    { cylinders: 8, page: 'LETTER', foreign: true, photos: 12, causes: true },
  ],
  ['12 cylinders, 40 tests', { cylinders: 12, tests: 40, causes: true, photos: 1 }],
  ...LANGUAGES.slice(1).map((language): [string, SampleJob, Language] => [
    `in ${language}`,
    { cylinders: 6, tests: 12, causes: true },
    language,
  ]),
]

describe('rules of PDF/A-3a and PDF/UA-1 that the file itself shows', () => {
  test.each(JOBS)('%s', async (_, options, language) => {
    expect(breaches(await render(sampleJob(options), language ? { language } : {}))).toEqual([])
  })

  /** Marks on letters, scripts and signs the typeface has or lacks, controls, lone halves of pairs, signs of private use. */
  const WORDS = [
    'x\u0302 \u0233 n\u0304 a\u0301\u0323 q\u0307\u0323 Z\u0335 e\u0302\u0301',
    '\u00dcn\u00efc\u00f6d\u00e9 \u017di\u017eka \u0141\u00f3d\u017a \u01c5 \ufb01 \u00bd \u2030 \u20ac',
    '\u0391\u03b8\u03ae\u03bd\u03b1 \u0390 \u1f04\u03bd\u03b8\u03c1\u03c9\u03c0\u03bf\u03c2 \u1fb3',
    '\u0416\u0443\u043a \u0434\u0451\u0440\u0433\u0430\u0435\u0442\u0441\u044f \u0407\u0436\u0430\u043a',
    '\u8f66\u8f86\u6296\u52a8 \uc5d4\uc9c4 \ud83d\ude97\ud83d\udc69\u200d\ud83d\udd27',
    '\u05e9\u05dc\u05d5\u05dd \u0645\u0631\u062d\u0628\u0627 \u0939\u093f\u0928\u094d\u0926\u0940',
    'tab\there\u200bzero\u00adsoft\u202ertl\u2028line\u0007bell',
    '\ue000\uf8ff\u{10fffd}',
    '\ud800 lone \udc00',
    '<b>&amp;"quotes"\'</b> \\ ( ) ]]> % # /',
    'x'.repeat(300),
  ]
  test('words of any script, and what is no word', async () => {
    const made = sampleJob({ cylinders: 4, tests: 4, after: false })
    const { job, tests } = made.result
    job.complaint = WORDS.join(' / ')
    job.shop = { name: WORDS[0]!, address: WORDS[9]! }
    job.customer = { name: WORDS[5]! }
    job.photos = [{ file: 'p.png', caption: WORDS.join(' '), stage: 'before' }]
    tests.forEach((each, i) => {
      each.place = WORDS[i]!
      each.note = WORDS.join(' ')
    })
    expect(breaches(await render(made))).toEqual([])
  })

  test('a signed one, a reissue, a redacted copy, one with a logo', async () => {
    const made = sampleJob({ cylinders: 4, tests: 3 })
    const signer = signerOf(
      generateKeyPairSync('ed25519').privateKey.export({ type: 'pkcs8', format: 'pem' }) as string,
    )
    expect(
      breaches(
        await render(
          {
            ...made,
            result: { ...made.result, program: { ...made.result.program, signing_key: signer.fingerprint } },
          },
          { signer },
        ),
      ),
    ).toEqual([])
    expect(
      breaches(
        await render({
          ...made,
          result: revised(sampleTexts(), made.result, { result: made.result, sha256: 'c'.repeat(64) }),
        }),
      ),
    ).toEqual([])
    expect(
      breaches(
        await render({
          ...made,
          result: redactResult(made.result, ['customer', 'vin', 'words'], { mask: '\u2588\u2588' }),
        }),
      ),
    ).toEqual([])
    const logo = Buffer.from(
      '<svg viewBox="0 0 40 10"><path d="M0 0h40v10H0z" fill="#246"/><circle cx="5" cy="5" r="4" fill="#fff"/></svg>',
    )
    expect(breaches(await render(made, { logo }))).toEqual([])
    expect(breaches(await render(made, { logo: samplePng(120, 40) }))).toEqual([])
  })
})

describe('the check finds what is broken', () => {
  const good = render(sampleJob({ cylinders: 4, tests: 1, after: false, bare: true }))
  /** Replaces bytes by as many others, so that nothing moves. */
  const broken = async (from: string | RegExp, to: string) => {
    const text = Buffer.from(await good).toString('latin1')
    const found = typeof from === 'string' ? from : text.match(from)![0]
    expect(text).toContain(found)
    return breaches(
      Buffer.from(
        text.replace(found, () => to.padEnd(found.length).slice(0, found.length)),
        'latin1',
      ),
    ).join('\n')
  }

  test.each<[string, string | RegExp, string, RegExp]>([
    ['a language that is none', '/Lang (en)', '/Lang (1n)', /language/],
    ['a cell that is no cell', '/S /TH\n', '/S /Hx\n', /Hx/],
    ['a head cell without scope', '/Scope /Column', '/Scape /Column', /scope/],
    ['a figure without words', /\/Alt \(/, '/Alx (', /Alt/],
    ['no mark of PDF/UA', '<pdfuaid:part>1', '<pdfuaid:part>2', /UA 5/],
    [
      'a property nobody declared',
      /pdf:Producer>[^]*?<\/pdf:Producer/,
      'pdf:Produced></pdf:Produced',
      /Produced/,
    ],
    ['a page without order', '/Tabs /S', '/Tabs /R', /tab order/],
    ['an attachment that belongs to nothing', /\/AF \[/, '/AG [', /not associated/],
    ['two headings of the first level', '/S /H2\n', '/S /H1\n', /headings of the first level/],
    ['a caption that is not of a figure', '/S /Figure\n', '/S /Sect\n', /a caption of Sect/],
    ['a list item without its sign', '/S /Lbl\n', '/S /Div\n', /list item of/],
    ['an identity of another length', /\/ID \[<..../, '/ID [<', /6\.1\.3/],
    ['another checksum', /\/CheckSum <..../, '/CheckSum <0000', /digest/],
    ['a date that differs', '<xmp:CreateDate>2026', '<xmp:CreateDate>2025', /dates/],
    ['a font without meaning', '/ToUnicode', '/ToUnicore', /stands for no letter/],
  ])('%s', async (_, from, to, expected) => expect(await broken(from, to)).toMatch(expected))
})
