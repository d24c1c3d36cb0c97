import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { SaxesParser } from 'saxes'
import { beforeAll, describe, expect, test } from 'vitest'
import type { PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { renderReport, type Attachment } from '../../src/report/render-report.ts'
import { revised } from '../../src/records/parts/revision.ts'
import { samplePng } from '../support/sample-photo.ts'
import { sampleJob, sampleTexts, type SampleJob } from '../support/sample-result.ts'
import { contentFacts, readRaw } from '../support/pdf-raw.ts'
import { allText, flat, openPdf, pageTags, pageText, type Tag } from '../support/read-pdf.ts'

const texts = sampleTexts()
const RESULT_JSON = Buffer.from('{"invented": true}\n')
const ATTACHMENTS: readonly Attachment[] = [
  {
    name: 'tests.csv',
    data: Buffer.from('at,step\n'),
    mime: 'text/csv',
    relationship: 'Data',
    description: 'attachment.tests.csv',
  },
  {
    name: 'result.json',
    data: RESULT_JSON,
    mime: 'application/json',
    relationship: 'Data',
    description: 'attachment.result.json',
  },
  {
    name: 'captures/idle-before.csv',
    data: Buffer.from('time_s\n'),
    mime: 'text/csv',
    relationship: 'Source',
    description: 'attachment.capture',
  },
]

function render(options: SampleJob = {}): Promise<Uint8Array> {
  const { result, traces } = sampleJob(options)
  const photos = new Map(
    result.job.photos.map(({ file }, i) => [file, i === 1 ? new Uint8Array([1, 2, 3]) : samplePng(60, 40)]),
  )
  return renderReport({ result, traces, texts, attachments: ATTACHMENTS, photos, page: options.page ?? 'A4' })
}

const SAMPLES: readonly [string, SampleJob][] = [
  ['6 cylinders', { photos: 3, causes: true }],
  ['4 cylinders, before only, nothing optional', { cylinders: 4, after: false, bare: true }],
  ['12 cylinders, 40 tests', { cylinders: 12, tests: 40, causes: true }],
  ['8 cylinders, Letter, long and foreign words', { cylinders: 8, page: 'LETTER', foreign: true, tests: 1 }],
]

/** Rules of ISO 19005-3 (PDF/A-3) and ISO 14289-1 (PDF/UA-1) that can be told from the file itself; clauses in brackets. */
describe.each(SAMPLES)('%s', (_, options) => {
  let bytes: Uint8Array
  let doc: PDFDocumentProxy
  let raw: ReturnType<typeof readRaw>
  let tags: Tag[]
  const dicts = (type: string) =>
    [...raw.objects.values()].filter(({ dict }) => new RegExp(`/Type /${type}\\b`).test(dict))
  const catalog = () => dicts('Catalog')[0]!.dict

  beforeAll(async () => {
    bytes = await render(options)
    raw = readRaw(bytes)
    doc = await openPdf(bytes)
    tags = await Promise.all(Array.from({ length: doc.numPages }, (_, i) => pageTags(doc, i + 1)))
  })

  test('head, trailer and end of the file (A 6.1.2, 6.1.3)', () => {
    expect(raw.header).toMatch(/^%PDF-1\.7\n%[\x80-\xff]{4}/)
    expect(raw.trailer).toMatch(/\/ID \[<[0-9a-f]{32}> <[0-9a-f]{32}>\]/)
    expect(raw.trailer).not.toContain('/Encrypt')
    expect(raw.end).toMatch(/%%EOF\n$/)
  })

  test('streams: none outside the file, no LZW (A 6.1.7)', () => {
    for (const { dict } of raw.objects.values())
      expect(dict).not.toMatch(/LZWDecode|\/FFilter|\/JavaScript|\/Launch/)
  })

  test('every font is embedded with a map to Unicode (A 6.2.11.4, 6.2.11.7)', () => {
    expect(dicts('FontDescriptor').length).toBeGreaterThan(0)
    for (const { dict } of dicts('FontDescriptor')) expect(dict).toMatch(/\/FontFile2 \d+ 0 R/)
    const composite = [...raw.objects.values()].filter(({ dict }) => dict.includes('/Subtype /Type0'))
    expect(composite).toHaveLength(dicts('FontDescriptor').length)
    for (const { dict } of composite) expect(dict).toMatch(/\/ToUnicode \d+ 0 R/)
  })

  test('content: all of it marked, never nested, balanced, no glyph .notdef (A 6.1.13, 6.2.11.8; UA 7.1)', () => {
    const contents = dicts('Page').map(
      ({ dict }) => raw.objects.get(Number(dict.match(/\/Contents (\d+)/)![1]))!.data!,
    )
    expect(contents).toHaveLength(doc.numPages)
    for (const content of contents) {
      const facts = contentFacts(content)
      expect(facts).toMatchObject({ unmarked: [], deepestMark: 1, openMarks: 0, openSaves: 0 })
      expect(facts.deepestSave).toBeLessThanOrEqual(28)
      expect(facts.codes.has('0000')).toBe(false)
      expect(facts.codes.size).toBeGreaterThan(0)
    }
  })

  test('catalog: marked, tagged, language, title shown, output intent (A 6.2.3, 6.7; UA 7.1, 7.2)', () => {
    expect(catalog()).toContain('/Lang (en)')
    expect(raw.objects.get(Number(catalog().match(/\/MarkInfo (\d+)/)![1]))!.dict).toContain('/Marked true')
    expect(raw.objects.get(Number(catalog().match(/\/ViewerPreferences (\d+)/)![1]))!.dict).toContain(
      '/DisplayDocTitle true',
    )
    expect(catalog()).toMatch(/\/StructTreeRoot \d+ 0 R/)
    const intent = dicts('OutputIntent')[0]!.dict
    expect(intent).toContain('/S /GTS_PDFA1')
    expect(
      raw.objects.get(Number(intent.match(/\/DestOutputProfile (\d+)/)![1]))!.data!.length,
    ).toBeGreaterThan(1000)
    for (const { dict } of dicts('Page')) expect(dict).toContain('/Tabs /S')
  })

  test('metadata: strict XML, both standards, extension schema, title (A 6.6; UA 5, 7.1)', async () => {
    const xml = Buffer.from(dicts('Metadata')[0]!.data!).toString('utf8')
    const parser = new SaxesParser({ xmlns: true })
    parser.on('error', (error) => {
      throw error
    })
    parser.write(xml).close()
    expect(xml).toContain('<pdfaid:part>3</pdfaid:part>')
    expect(xml).toContain('<pdfaid:conformance>A</pdfaid:conformance>')
    expect(xml).toContain('<pdfuaid:part>1</pdfuaid:part>')
    expect(xml).toContain(
      '<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>',
    )
    const { info, metadata } = await doc.getMetadata()
    expect((info as { Title: string }).Title).toBe('Ignition and mixture report, work order 24-0713')
    expect(metadata!.get('dc:title')).toBe('Ignition and mixture report, work order 24-0713')
  })

  test('embedded files: associated, F and UF, relationship, MIME type, 16-byte checksum (A 6.8; UA 7.11)', async () => {
    const specs = dicts('Filespec')
    expect(specs).toHaveLength(ATTACHMENTS.length)
    expect(
      catalog()
        .match(/\/AF \[([^\]]*)\]/)![1]!
        .match(/\d+ 0 R/g),
    ).toHaveLength(ATTACHMENTS.length)
    for (const { dict } of specs) {
      expect(dict).toMatch(/\/AFRelationship \/(Source|Data)/)
      expect(dict).toMatch(/\/F \(.*\)\n\/UF \(/)
      expect(dict).toMatch(/\/EF <<\n\/F (\d+) 0 R\n\/UF \1 0 R/)
    }
    for (const { dict } of dicts('EmbeddedFile'))
      expect(dict).toMatch(/\/Subtype \/(text#2fcsv|application#2fjson)[^]*\/CheckSum <[0-9a-f]{32}>/)
    const files = (await doc.getAttachments()) as Record<string, { content: Uint8Array; description: string }>
    expect(Buffer.from(files['result.json']!.content)).toEqual(RESULT_JSON)
    expect(files['result.json']!.description).toBe('Everything the report says, machine-readable')
  })

  test('headings start at H1 and skip no level (UA 7.4)', () => {
    const levels = tags
      .flatMap((page) => flat(page))
      .map(({ role }) => role)
      .filter((role) => /^H\d$/.test(role))
      .map((role) => Number(role[1]))
    expect(levels[0]).toBe(1)
    expect(levels.filter((level) => level === 1)).toHaveLength(1)
    levels.forEach((level, i) => {
      if (i > 0) expect(level - levels[i - 1]!).toBeLessThanOrEqual(1)
    })
  })

  test('a caption is the last child of its figure, never on its own (UA 7.2; ISO 32000-1, 14.8.4.3)', () => {
    const all = tags.flatMap((page) => flat(page))
    const captioned = all.filter(({ children }) => children.some(({ role }) => role === 'Caption'))
    expect(captioned.length).toBeGreaterThan(2)
    for (const { role, children } of captioned) {
      expect(role).toBe('Figure')
      expect(children.findIndex((child) => child.role === 'Caption')).toBe(children.length - 1)
    }
  })

  test('every figure has an alternative text of a full sentence (UA 7.3)', () => {
    const figures = tags.flatMap((page) => flat(page)).filter(({ role }) => role === 'Figure')
    expect(figures.length).toBeGreaterThan(2)
    for (const { alt } of figures) expect(alt?.trim().length ?? 0).toBeGreaterThan(10)
  })

  test('tables are regular, their header cells scoped (UA 7.2, 7.5)', () => {
    const tables = tags.flatMap((page) => flat(page)).filter(({ role }) => role === 'Table')
    expect(tables.length).toBeGreaterThan(3)
    for (const table of tables) {
      const rows = table.children.flatMap((part) => {
        expect(['THead', 'TBody']).toContain(part.role)
        return part.children
      })
      expect(new Set(rows.map(({ role }) => role))).toEqual(new Set(['TR']))
      expect(new Set(rows.map(({ children }) => children.length)).size).toBe(1)
      for (const cell of rows.flatMap(({ children }) => children)) expect(['TH', 'TD']).toContain(cell.role)
    }
    const heads = [...raw.objects.values()].filter(({ dict }) => dict.includes('/S /TH\n'))
    for (const { dict } of heads) expect(dict).toMatch(/\/Scope \/(Row|Column)/)
  })

  test('lists hold items, items a body (UA 7.2)', () => {
    for (const list of tags.flatMap((page) => flat(page)).filter(({ role }) => role === 'L')) {
      for (const item of list.children) {
        expect(item.role).toBe('LI')
        expect(item.children.map(({ role }) => role)).toEqual(['Lbl', 'LBody'])
      }
    }
  })

  test('bookmarks name every section once', async () => {
    type Entry = Awaited<ReturnType<typeof doc.getOutline>>[number]
    const flatten = (entries: readonly Entry[]): Entry[] =>
      entries.flatMap((entry) => [entry, ...flatten(entry.items as Entry[])])
    const tree = await doc.getOutline()
    expect(tree[0]!.title).toBe(texts.templates['report.customer.title'])
    // Three levels: the report, its sections, their parts.
    const sections = tree[0]!.items as Entry[]
    expect(tree).toHaveLength(1)
    expect(sections.some(({ items }) => items.length > 0)).toBe(true)
    const outline = sections
    expect(flatten(tree).length).toBeGreaterThan(outline.length + 1)
    expect(new Set(outline.map(({ title }) => title)).size).toBe(outline.length)
    expect(outline.length).toBeGreaterThanOrEqual(9)
  })

  test('page x of y and the work order stand on every page; the customer has one page; the end is marked once', async () => {
    for (let page = 1; page <= doc.numPages; page++) {
      const text = await pageText(doc, page)
      expect(text).toContain(`page ${page} of ${doc.numPages}`)
      expect(text).toContain('Work order 24-0713')
    }
    expect(await pageText(doc, 2)).toContain(texts.templates['report.record.title'])
    const whole = await allText(doc)
    expect(whole.match(/End of report 24-0713/g)).toHaveLength(1)
    expect(await pageText(doc, doc.numPages)).toContain('End of report 24-0713')
  })
})

const SMALL: SampleJob = { cylinders: 4, tests: 3, after: false }

describe('a reissue (ISO/IEC 17025:2017, 7.8.8)', () => {
  test('carries its number on every page, and says what it replaces and what changed', async () => {
    const { result, traces } = sampleJob(SMALL)
    const standing = {
      result: { ...result, program: { ...result.program, version: '0.0.1' } },
      sha256: 'c'.repeat(64),
    }
    const doc = await openPdf(
      await renderReport({
        result: revised(texts, result, standing),
        traces,
        texts,
        attachments: [],
        photos: new Map(),
        page: 'A4',
      }),
    )
    for (let page = 2; page <= doc.numPages; page++) expect(await pageText(doc, page)).toContain('Revision 2')
    expect(await pageText(doc, 1)).toContain('Revision: 2, replaces 1')
    const whole = await allText(doc)
    expect(whole).toContain('c'.repeat(64))
    expect(whole).toContain('Program version: 0.0.1, now')
  })
})

describe('what the report says', () => {
  test('every input stands with its whole digest', async () => {
    const { result } = sampleJob(SMALL)
    const text = await allText(await openPdf(await render(SMALL)))
    for (const { sha256 } of result.inputs) expect(text).toContain(sha256)
  })

  /** Points a to p of ISO/IEC 17025:2017, 7.8.2.1, and the decision rule of 7.8.6: on the paper, or said to be absent. */
  test('every point of a test report is there, even with nothing optional given', async () => {
    const t = (key: string) => texts.templates[`report.${key}`]!
    const points = [
      'kind',
      'identity',
      'place',
      'received',
      'performed',
      'issued',
      'condition',
      'sampling',
      'deviations',
      'others',
      'opinions',
      'authorises',
    ]
    const text = await allText(await openPdf(await render({ ...SMALL, bare: true })))
    for (const point of points) expect(text).toContain(t(`declaration.${point}`))
    for (const key of [
      'declaration.items',
      'declaration.in-full',
      'declaration.no-accreditation',
      'declaration.place-absent',
      'declaration.issued-open',
      'method.rule-risk',
      'method.title',
      'limits.title',
    ]) {
      expect(text, key).toContain(t(key))
    }
    expect(text).toMatch(new RegExp(`${t('record.absent')} [^.]*${t('ccc.customer')};`))
    expect(text).not.toMatch(/accredited/i)
  })

  test('signs that cannot be printed are shown as boxes and owned up to', async () => {
    const text = await allText(await openPdf(await render({ ...SMALL, foreign: true })))
    expect(text).toContain('\u25a1')
    expect(text).toContain('U+8F66')
    expect(text).toContain('\u0391\u03b8\u03ae\u03bd\u03b1 \u0416\u0443\u043a &')
  })

  test('a picture that cannot be printed is named', async () => {
    const text = await allText(await openPdf(await render({ ...SMALL, photos: 2 })))
    expect(text).toContain('photos/p2.png cannot be printed')
  })

  test('two attachments of one name are refused', async () => {
    const { result, traces } = sampleJob({ bare: true, after: false })
    const attachments = [ATTACHMENTS[0]!, ATTACHMENTS[0]!]
    await expect(
      renderReport({ result, traces, texts, attachments, photos: new Map(), page: 'A4' }),
    ).rejects.toThrow('tests.csv')
  })
})

describe('same input, same bytes', () => {
  const sha256 = (data: Uint8Array) => createHash('sha256').update(data).digest('hex')

  test('again, after another report of the same process, and from attachments in another order', async () => {
    const first = sha256(await render(SMALL))
    await render({ ...SMALL, foreign: true })
    const { result, traces } = sampleJob(SMALL)
    const turned = ATTACHMENTS.toReversed()
    expect(sha256(await render(SMALL))).toBe(first)
    expect(
      sha256(
        await renderReport({ result, traces, texts, attachments: turned, photos: new Map(), page: 'A4' }),
      ),
    ).toBe(first)
  })

  test('in a process of another time zone and locale', async () => {
    const script = `import { createServer } from 'vite'
      const server = await createServer({ configFile: false, logLevel: 'silent', server: { middlewareMode: true, watch: null, ws: false } })
      const { digestReport } = await server.ssrLoadModule(${JSON.stringify(new URL('../support/digest-report.ts', import.meta.url).pathname)})
      console.log(await digestReport())
      await server.close()`
    const run = (env: Record<string, string>) =>
      execFileSync(process.execPath, ['--input-type=module', '-e', script], {
        encoding: 'utf8',
        cwd: new URL('../..', import.meta.url).pathname,
        env: { ...process.env, ...env },
      }).trim()
    const { digestReport } = await import('../support/digest-report.ts')
    expect(run({ TZ: 'Pacific/Kiritimati', LANG: 'de_DE.UTF-8', LC_ALL: 'de_DE.UTF-8' })).toBe(
      await digestReport(),
    )
  })
})
