import { beforeAll, describe, expect, test } from 'vitest'
import type { PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { sizeOf } from '../../src/charts/laid-chart.ts'
import { chartsOf } from '../../src/charts/charts-of.ts'
import { compileView } from '../../src/charts/compile-view.ts'
import { renderReport } from '../../src/report/render-report.ts'
import { openTypeface } from '../../src/report/text/typeface.ts'
import { LANGUAGES, loadTexts } from '../../src/texts/load-texts.ts'
import { collisions, drawnTexts } from '../charts/drawn-items.ts'
import { breaches } from '../support/conformance/conformance.ts'
import { longestJob } from '../support/longest-job.ts'
import { inTurn } from '../support/long-run.ts'
import { outsideFrame } from '../support/outside-frame.ts'
import { cutShort, overlapsOf } from '../support/overlaps.ts'
import { allText, openPdf, pageText } from '../support/read-pdf.ts'
import { samplePng } from '../support/sample-photo.ts'

const CASES = LANGUAGES.flatMap((language, i) =>
  inTurn(['A4', 'LETTER'] as const, i).map((page) => ({ language, page })),
)

describe.each(CASES)('the longest job in $language on $page', ({ language, page }) => {
  const texts = loadTexts(language)
  const { result, traces } = longestJob(texts, page)
  let bytes: Uint8Array
  let doc: PDFDocumentProxy

  beforeAll(async () => {
    const photos = new Map(
      result.job.photos.map(({ file }, i) => [file, samplePng(400 - 30 * i, 60 + 30 * i)]),
    )
    bytes = await renderReport({ result, traces, texts, attachments: [], photos, page })
    doc = await openPdf(bytes)
  }, 120_000)

  test('nothing runs out of the frame, lies upon another or is cut short', async () => {
    expect(await outsideFrame(doc, page)).toEqual([])
    expect(await overlapsOf(doc)).toEqual([])
    expect(await cutShort(doc, page)).toEqual([])
  })

  test('every page bears the work order in full', async () => {
    for (let number = 1; number <= doc.numPages; number++)
      expect(await pageText(doc, number)).toContain(result.job.work_order)
  })

  test('nothing is left out: the last words of the longest texts stand on the paper', async () => {
    const words = (await allText(doc)).replaceAll(/\s/g, '')
    for (const text of [
      result.job.complaint,
      result.job.cause!,
      result.job.correction!,
      result.job.instrument.description!,
    ])
      expect(words).toContain(text.replaceAll(/\s/g, '').slice(-80))
    for (const { text } of result.problems) expect(words).toContain(text.replaceAll(/\s/g, '').slice(-30))
  })

  test('the rules of PDF/A-3a and PDF/UA-1 hold', () => expect(breaches(bytes)).toEqual([]))
})

test.each(LANGUAGES)(
  'charts of the longest job in %s: every label whole, within the chart, and none upon another',
  async (language) => {
    const texts = loadTexts(language)
    const { result, traces } = longestJob(texts, 'A4')
    const typeface = await openTypeface()
    for (const plan of chartsOf(result, traces, texts)) {
      const view = await compileView(plan.spec)
      const labels = drawnTexts(view)
      const size = sizeOf(view)
      expect([
        plan.id,
        labels
          .filter(
            (t) => t.x1 < -0.5 || t.y1 < -1.6 || t.x2 > size.widthPt + 0.5 || t.y2 > size.heightPt + 1.6,
          )
          .map((t) => t.text),
      ]).toEqual([plan.id, []])
      expect([plan.id, collisions(labels)]).toEqual([plan.id, []])
      // A label with a most width is cut where it is drawn, not where it is laid out.
      expect([
        plan.id,
        labels
          .filter(
            ({ text, limit, sizePt }) =>
              limit !== undefined && limit > 0 && typeface.width(text, { face: 'regular', sizePt }) > limit,
          )
          .map((t) => t.text),
      ]).toEqual([plan.id, []])
      view.finalize()
    }
  },
)

test('the measures find text upon text and words cut short', async () => {
  const texts = loadTexts('en')
  const { result, traces } = longestJob(texts, 'A4')
  const found = [{ key: 'page.found.in-order', args: {}, text: 'Words that end too so\u2026' }]
  const { conclusion } = result
  const one = { ...result, conclusion: { ...conclusion, page_one: { ...conclusion.page_one, found } } }
  const doc = await openPdf(
    await renderReport({ result: one, traces, texts, attachments: [], photos: new Map(), page: 'A4' }),
  )
  expect(await cutShort(doc, 'A4')).toEqual([expect.stringContaining('page 1: Words that end too so\u2026')])
  // The same page's runs laid upon themselves, a little lower.
  const page = await doc.getPage(2)
  const { items, ...rest } = await page.getTextContent()
  const moved = items.map((item) =>
    'str' in item
      ? { ...item, transform: [...item.transform.slice(0, 5), (item.transform[5] as number) - 3] }
      : item,
  )
  const doubled = {
    numPages: 1,
    getPage: async () => ({ getTextContent: async () => ({ ...rest, items: [...items, ...moved] }) }),
  } as unknown as PDFDocumentProxy
  expect((await overlapsOf(doubled)).length).toBeGreaterThanOrEqual(
    items.filter((item) => 'str' in item && item.str.trim() !== '' && item.transform[1] === 0).length,
  )
}, 60_000)
