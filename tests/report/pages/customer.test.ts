import { describe, expect, test } from 'vitest'
import { renderReport } from '../../../src/report/render-report.ts'
import { readingGrade } from '../../support/reading-grade.ts'
import { allText, openPdf, pageText } from '../../support/read-pdf.ts'
import { sampleJob, sampleTexts } from '../../support/sample-result.ts'

const texts = sampleTexts()
const own = (prefix: string) =>
  Object.entries(texts.templates)
    .filter(([key]) => key.startsWith(prefix))
    .map(([, text]) => text)

test('the measure of reading knows an easy text from a hard one', () => {
  expect(readingGrade('The cat sat on the mat. The dog ran to the door.')).toBeLessThan(2)
  expect(
    readingGrade(
      'Notwithstanding considerable methodological heterogeneity, electrochemical characterisation demonstrated reproducibility.',
    ),
  ).toBeGreaterThan(16)
})

describe('the customer page', () => {
  test('its sentences can be read at school grade 8, together and by the worst of them', () => {
    const sentences = own('report.customer.')
      .filter((text) => text.endsWith('.'))
      .map((text) => text.replaceAll(/\{[^}]*\}/g, 'part'))
    expect(sentences.length).toBeGreaterThan(5)
    expect(readingGrade(sentences.join(' '))).toBeLessThanOrEqual(8)
    for (const sentence of sentences) expect(readingGrade(sentence), sentence).toBeLessThanOrEqual(10)
  })

  test('says complaint, findings, work, outcome and doubts, each from the result', async () => {
    const { result, traces } = sampleJob()
    const doc = await openPdf(
      await renderReport({ result, traces, texts, attachments: [], photos: new Map(), page: 'A4' }),
    )
    const page = await pageText(doc, 1)
    expect(page).toContain(result.job.complaint)
    expect(page).toContain(result.job.correction)
    for (const { text } of result.summary) expect(page).toContain(text)
    expect(page).toContain(texts.templates['report.customer.by-ear'])
  })

  test('its numbers stand in the pages behind it too', async () => {
    const { result, traces } = sampleJob()
    const doc = await openPdf(
      await renderReport({ result, traces, texts, attachments: [], photos: new Map(), page: 'A4' }),
    )
    const [first, ...others] = (await allText(doc)).split('\n')
    const events = result.captures.reduce((sum, capture) => sum + capture.events, 0)
    expect(first).toContain(`${events / result.captures.length} sparks`)
    for (const capture of result.captures) expect(others.join(' ')).toContain(String(capture.events))
    expect(first).toContain('98,123 mi')
    expect(others.join(' ')).toContain('98,123 mi')
  })

  test('without a repair on record it says so and promises nothing', async () => {
    const { result, traces } = sampleJob({ cylinders: 4, after: false, bare: true })
    const page = await pageText(
      await openPdf(
        await renderReport({ result, traces, texts, attachments: [], photos: new Map(), page: 'LETTER' }),
      ),
      1,
    )
    expect(page).toContain(texts.templates['report.customer.no-work'])
    expect(page).not.toContain('null')
    expect(page).not.toContain('undefined')
  })
})
