import { beforeAll, describe, expect, test } from 'vitest'
import type { PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { renderReport } from '../../src/report/render-report.ts'
import { openTypeface } from '../../src/report/text/typeface.ts'
import { frameOf } from '../../src/report/theme.ts'
import { LANGUAGES, loadTexts } from '../../src/texts/load-texts.ts'
import { allText, openPdf, pageText, wordsOf } from '../support/read-pdf.ts'
import { sampleJob } from '../support/sample-result.ts'

/** Widest a word of a table's head may be before it is cut between letters (see blocks/table.ts), pt, at 9 pt semibold. */
const LONGEST_WORD_PT = 84

describe.each(LANGUAGES)('a report in %s', (language) => {
  const texts = loadTexts(language)
  let doc: PDFDocumentProxy

  beforeAll(async () => {
    const { result, traces } = sampleJob({ cylinders: 4, tests: 12 })
    const limits = result.limits.map((limit, i) => (i === 0 ? { ...limit, value: 17.375 } : limit))
    doc = await openPdf(
      await renderReport({
        result: { ...result, limits, language },
        traces,
        texts,
        attachments: [],
        photos: new Map(),
        page: 'A4',
      }),
    )
  }, 60_000)

  test('no text runs out of the frame', async () => {
    const { xPt, widthPt } = frameOf('A4')
    const out: string[] = []
    for (let page = 1; page <= doc.numPages; page++) {
      const { items } = await (await doc.getPage(page)).getTextContent()
      for (const item of items) {
        if (!('str' in item) || item.str.trim() === '' || item.transform[1] !== 0) continue
        const left = item.transform[4] as number
        if (left < xPt - 1 || left + item.width > xPt + widthPt + 1) out.push(`page ${page}: ${item.str}`)
      }
    }
    expect(out).toEqual([])
  })

  test("every sign of the report's own is in the typeface, and no figure is parted from its decimals", async () => {
    const text = await allText(doc)
    expect(text).not.toContain('\u25a1')
    const sign = language === 'en' ? '\\.' : ','
    // Sentences and cells by themselves: what follows one on the page is no part of its figure.
    const roles = ['P', 'TD', 'TH', 'LBody', 'Caption'] as const
    const said: string[] = []
    for (let page = 1; page <= doc.numPages; page++)
      for (const role of roles) said.push(...(await wordsOf(doc, page, role)))
    expect(said.join(' ').length).toBeGreaterThan(0.6 * text.length)
    expect(said.join('\n').match(new RegExp(`\\d${sign} \\d{2}(?= \\u2212?\\d|$)`, 'g')) ?? []).toEqual([])
  })

  test("limits are written with the language's decimal sign", async () => {
    expect(await allText(doc)).toContain(language === 'en' ? '17.375' : '17,375')
  })

  test('heads of tables are not cut within a word', async () => {
    const typeface = await openTypeface()
    const heads = Object.entries(texts.templates).filter(
      ([key]) =>
        /^report\.(column|shift|before-after|tests|causes|method|limits|evidence)\./.test(key) &&
        !texts.templates[key]!.endsWith('.'),
    )
    const words = heads.filter(([, text]) => text.length < 40).flatMap(([, text]) => text.split(/[ -]/))
    expect(
      words.filter((word) => typeface.width(word, { face: 'semibold', sizePt: 9 }) > LONGEST_WORD_PT),
    ).toEqual([])
  })

  test('the customer has one page, with month and title in the language', async () => {
    expect(await pageText(doc, 2)).toContain(texts.templates['report.record.title'])
    expect(await pageText(doc, 1)).toContain(texts.templates['report.month.3'])
    expect(await pageText(doc, 1)).toContain(texts.templates['report.customer.title'])
  })
})
