import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { beforeAll, describe, expect, test } from 'vitest'
import type { PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { PLAIN } from '../../support/plain-options.ts'
import { runJob } from '../../../src/chain/run-job.ts'
import { fleetResultSchema, rowOfResult } from '../../../src/fleet/fleet-row.ts'
import { FOLLOW_UP_WORDS, TEST_WORDS } from '../../../src/verdicts/causes/test-words.ts'
import { DEMO_JOBS } from '../../../src/demo/demo-jobs.ts'
import type { Result } from '../../../src/records/result.ts'
import { placedMarks } from '../../support/placed-marks.ts'
import { readingGrade } from '../../support/reading-grade.ts'
import { allText, openPdf, wordsOf } from '../../support/read-pdf.ts'
import { sampleTexts } from '../../support/sample-result.ts'

const texts = sampleTexts()

/** What each step that can be advised begins with, by its id. */
const STEPS: Readonly<Record<string, string>> = Object.fromEntries(
  Object.entries({ ...TEST_WORDS, ...FOLLOW_UP_WORDS }).map(([id, { says }]) => [id, says]),
)

/** Words of the trade that a customer need not know. Where one stands in brackets it is explained before. */
const JARGON =
  /\b(median|interval|late rise|secondary|spark line|dwell|kV|lambda|fuel trim|stoichiometric|capture|sync|breakdown|firing voltage|coil cycles|top dead centre|manifold vacuum)\b/i

/** Most pages of a demo report: eleven of the longest, of an eight-cylinder engine with 27 tests; seven of a few cylinders and a short log. */
const MOST_PAGES: Readonly<Record<string, number>> = {
  'brake-hose-leak-v8': 11,
  'third-cylinder-valve': 7,
  'plug-top-resistance': 7,
}
const MOST_OTHERS = 9
/** Most bytes of the specification of page one's picture. */
const MOST_PICTURE_BYTES = 65_000

/** Page one as it is printed for every demo job, from its folder to the PDF. */
describe.each(DEMO_JOBS.map(({ folder }) => folder))('page one of %s', (folder) => {
  let result: Result
  let doc: PDFDocumentProxy
  let sentences: string[]
  let behind: string
  let pages: string[]
  let claim: string
  let specs: Map<string, string>
  let drawings: string[]

  beforeAll(async () => {
    const path = fileURLToPath(new URL(`../../../inputs/${folder}`, import.meta.url))
    const { result: found, files } = await runJob(path, PLAIN, texts)
    result = found
    claim = files.get('claim.txt') as string
    specs = new Map(
      [...files].filter(([name]) => /\.v[lg]\.json$/.test(name)).map(([name, text]) => [name, String(text)]),
    )
    drawings = [...files.keys()].filter((name) => name.endsWith('.svg'))
    doc = await openPdf(Buffer.from(files.get('report.pdf')!))
    const paragraphs = await wordsOf(doc, 1, 'P')
    // The words of customer and technician are their own: they stand in quotes, and are not ours to make easier.
    sentences = paragraphs
      .map((text) => text.replaceAll(/\u201c[^\u201d]*\u201d/g, 'this'))
      .filter((text) => /[.!?]$/.test(text))
    pages = (await allText(doc)).split('\n')
    behind = (await allText(doc)).split('\n').slice(1).join(' ')
  })

  test('can be read at school grade 8 (Flesch-Kincaid)', () => {
    const page = sentences.join(' ')
    expect(page.length).toBeGreaterThan(300)
    expect(readingGrade(page), page).toBeLessThanOrEqual(8)
  })

  test('uses no word of the trade without its meaning', () => {
    // The next step is named as the workshop names it.
    const step = result.next_test?.says.text.replaceAll(/\u201c[^\u201d]*\u201d/g, 'this') ?? ''
    const outsideBrackets = sentences
      .join(' ')
      .replace(step.replaceAll(/\s+/g, ' '), '')
      .replaceAll(/\([^)]*\)/g, '')
    expect(outsideBrackets).not.toMatch(JARGON)
  })

  test('says every summary sentence of the result', () => {
    const whole = sentences.join(' ')
    for (const { text } of result.summary)
      expect(whole).toContain(text.replaceAll(/\u201c[^\u201d]*\u201d/g, 'this').replaceAll(/\s+/g, ' '))
  })

  test('its numbers are those of the result, and stand in the pages behind it', () => {
    const sparks = result.captures.reduce((sum, { events, partial }) => sum + events - partial, 0)
    const said = sentences.join(' ').match(/\d[\d.,]*\d|\d/g)!
    expect(said).toContain(String(sparks))
    const isBehind = (number: string) => new RegExp(`(?<![\\d.,])${number}(?![\\d]|[.,]\\d)`).test(behind)
    expect(result.captures.map(({ events }) => String(events)).filter((number) => !isBehind(number))).toEqual(
      [],
    )
    // Figures of findings are printed rounded where the pages behind print them in full.
    const { findings } = result.conclusion
    const rounded = new Set(
      findings.flatMap(({ size: s }) =>
        [s?.value, s?.limit_low, s?.limit_high].flatMap((n) =>
          typeof n === 'number' ? [Math.abs(n).toFixed(0), Math.abs(n).toFixed(1)] : [],
        ),
      ),
    )
    expect(
      said.filter((number) => number !== String(sparks) && !rounded.has(number) && !isBehind(number)),
    ).toEqual([])
  })

  test('the record stands on page two alone, at most six pages before the annex, and the whole is short', () => {
    const annex = texts.templates['report.annex']!.replace('{letter}', 'A').replace('{title}', '')
    expect(pages[1]).toContain(texts.templates['report.record.title'])
    expect(pages[2]).not.toContain(texts.templates['report.record.cylinders'])
    const begins = pages.findIndex((page, i) => i > 1 && page.includes(annex))
    expect(begins).toBeGreaterThan(1)
    // Whole pages, and what stands above the annex on the page it begins on.
    expect(begins + (pages[begins]!.indexOf(annex) > 200 ? 1 : 0)).toBeLessThanOrEqual(6)
    expect(pages.length).toBeLessThanOrEqual(MOST_PAGES[folder] ?? MOST_OTHERS)
  })

  test('the next step stands on the page of its cautions, below them', () => {
    const next = result.next_test
    if (!next) return expect(result.conclusion.next.kind).not.toBe('test')
    const page = pages.find(
      (words, i) => i > 1 && words.replaceAll(/\s+/g, ' ').includes(next.says.text.replaceAll(/\s+/g, ' ')),
    )!
    const flat = page.replaceAll(/\s+/g, ' ')
    expect(next.cautions.length).toBeGreaterThan(0)
    for (const danger of next.cautions) {
      const says = texts.templates[`report.cautions.${danger}`]!.replaceAll(/\s+/g, ' ')
      expect(flat.indexOf(says), danger).toBeGreaterThan(-1)
      expect(flat.indexOf(says), danger).toBeLessThan(
        flat.lastIndexOf(next.says.text.replaceAll(/\s+/g, ' ')),
      )
    }
  })

  test('every chart is saved as a specification, in which scales place the marks', () => {
    const named = [...specs.keys()].map((name) => name.replace(/\.v[lg]\.json$/, '.svg'))
    expect(named.toSorted()).toEqual(drawings.toSorted())
    const all = [...specs.values()].map((text) => placedMarks(JSON.parse(text) as Record<string, unknown>))
    const total = (of: 'marks' | 'byScale') => all.reduce((sum, each) => sum + each[of], 0)
    expect(total('marks')).toBeGreaterThan(100)
    expect(total('byScale') / total('marks')).toBeGreaterThanOrEqual(0.9)
    expect(specs.get('charts/customer.vl.json')!.length).toBeLessThan(MOST_PICTURE_BYTES)
  })

  test('names one next step wherever it names one, in the same words', () => {
    const { next_test: next, conclusion, leak_hunt: hunt } = result
    expect([conclusion.next.id, conclusion.next.place, conclusion.next.minutes]).toEqual(
      next ? [next.id, next.place, next.minutes] : [null, null, null],
    )
    expect(rowOfResult(fleetResultSchema.parse(result)).nextStep).toBe(next?.id ?? '')
    const flat = pages.map((page) => page.replaceAll(/\s+/g, ' '))
    const says = next?.says.text ?? conclusion.page_one.next.map(({ text }) => text).join(' ')
    const causes = flat.findIndex((page, i) => i > 1 && page.includes(texts.templates['report.causes.next']!))
    for (const [name, page] of [
      ['page one', flat[0]],
      ['record', flat[1]],
      ...(next ? [['causes', flat.slice(causes, causes + 2).join(' ')]] : []),
    ])
      expect(page, name).toContain(says.replaceAll(/\s+/g, ' '))
    if (hunt?.next) expect(hunt.next.says.args['step']).toEqual(next!.says.args['test'])
    // no other step is advised anywhere
    const others = Object.entries(STEPS).flatMap(([id, key]) => {
      const begins = texts.templates[key]!.split('{')[0]!.trim()
      return id === next?.id || begins.length < 20 ? [] : [begins]
    })
    expect(others.filter((words) => flat[0]!.includes(words))).toEqual([])
  })

  test('the claim text says complaint, cause, correction and proof in a form, and no more than the record', () => {
    const { job, conclusion, tests: log } = result
    expect(claim.length).toBeLessThanOrEqual(1000)
    const lines = claim.trimEnd().split('\n')
    expect(lines.map((line) => line.split(':')[0])).toEqual(
      expect.arrayContaining(['Complaint', 'Cause', 'Correction', 'Proof']),
    )
    const [complaint, cause, correction, proof] = lines as [string, string, string, string]
    expect(complaint).toContain(job.complaint)
    expect(cause).toContain(job.cause ?? 'not stated by the technician')
    const worked = job.correction ?? (log.some(({ step }) => step === 'repair') ? '2026' : 'not on record')
    expect(correction).toContain(worked)
    expect(proof.includes('Not shown')).toBe(conclusion.repair.verdict !== 'repair confirmed')
    expect(proof).toContain(conclusion.repair.reason.text)
    // No figure that the record does not hold on its page.
    const record = pages[1]!.replaceAll(/\s+/g, ' ')
    const figures = claim.match(/\d[\d.]*\d(?= %|\u2026)/g) ?? []
    expect(figures.filter((figure) => !record.includes(figure))).toEqual([])
  })
})

test('the smallest job, one recording and an empty log, has five pages', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'smallest-'))
  try {
    cpSync(fileURLToPath(new URL('../../../inputs/third-cylinder-valve', import.meta.url)), folder, {
      recursive: true,
    })
    const log = join(folder, 'test-log.csv')
    writeFileSync(log, `${readFileSync(log, 'utf8').split('\n')[0]}\n`)
    const { files } = await runJob(folder, PLAIN, texts)
    expect((await openPdf(Buffer.from(files.get('report.pdf')!))).numPages).toBeLessThanOrEqual(5)
  } finally {
    rmSync(folder, { recursive: true })
  }
})
