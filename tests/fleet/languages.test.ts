import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { runFleet } from '../../src/fleet-run/run-fleet.ts'
import { LANGUAGES, loadTexts, type Language } from '../../src/texts/load-texts.ts'
import { breaches } from '../support/conformance/conformance.ts'
import { englishLeft } from '../support/english-left.ts'
import { allText, openPdf } from '../support/read-pdf.ts'
import { outsideFrame } from '../support/outside-frame.ts'
import { inventFleet, recordOf, type InventedJob } from './fleet-jobs.ts'

const codesOf = (prefix: string) =>
  Object.keys(loadTexts('en').templates)
    .filter((key) => key.startsWith(prefix))
    .map((key) => key.slice(prefix.length))

/** Jobs that show every part of the report: each fault, repeats, jobs refused, warnings and remarks, no date, no VIN. */
const JOBS: InventedJob[] = [
  ...inventFleet(9, 40),
  {
    workOrder: 'X-1',
    date: '',
    unit: '9',
    customer: 'Ex',
    odd: { 2: 'open secondary' },
    cause: 'secondary-cylinder',
    repair: 'worse',
    work: ['x'],
    warnings: codesOf('problem.').slice(0, 30),
    remarks: codesOf('remark.'),
  },
  {
    workOrder: 'X-2',
    date: '2024-03-09',
    vin: '1M8GDM9AXKP042788',
    odd: { 1: 'lean' },
    cause: 'leak-manifold',
    repair: 'repair confirmed',
    work: ['x'],
    riseAfter: 3,
    odometer: 123_456,
  },
  {
    workOrder: 'X-3',
    date: '2024-09-09',
    vin: '1M8GDM9AXKP042788',
    odd: { 1: 'lean' },
    notJudged: [2],
    cause: 'leak-manifold',
    repair: 'no change',
    work: ['x'],
    odometer: 125_000,
  },
]

let root: string
const made = new Map<Language, { words: string; bytes: Uint8Array; csv: string; json: string }>()

beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'burnline-fleet-'))
  const refused = codesOf('problem.').map((code) => ({
    folder: `inputs/${code}`,
    state: 'invalid',
    problems: [{ code, severity: 'refuse' }],
  }))
  writeFileSync(
    join(root, 'records.ndjson'),
    [...JOBS.map(recordOf), ...refused].map((line) => `${JSON.stringify(line)}\n`).join(''),
  )
  for (const language of LANGUAGES) {
    const out = join(root, language)
    await runFleet([join(root, 'records.ndjson')], {
      out,
      page: 'A4',
      version: '0.1.0',
      texts: loadTexts(language),
    })
    const bytes = readFileSync(join(out, 'fleet.pdf'))
    made.set(language, {
      bytes,
      words: await allText(await openPdf(bytes)),
      csv: readFileSync(join(out, 'fleet.csv'), 'utf8'),
      json: readFileSync(join(out, 'fleet.json'), 'utf8'),
    })
  }
}, 120_000)
afterAll(() => rmSync(root, { recursive: true, force: true }))

// Days and figures as each language writes them. @source Unicode CLDR, short dates and numbers of es, fr and de, from memory; English in ISO 8601, since its readers do not share one order
const HABITS: Record<Language, readonly string[]> = {
  en: ['2024-09-09', '125,000', 'unit 9 (Ex)', 'VIN 1M8GDM9AXKP042788', 'January 2021'],
  es: ['09/09/2024', '125\u202f000', 'unidad 9 (Ex)', 'VIN 1M8GDM9AXKP042788', 'enero de 2021'],
  fr: ['09/09/2024', '125\u202f000', 'unité 9 (Ex)', 'VIN 1M8GDM9AXKP042788', 'janvier 2021'],
  de: ['09.09.2024', '125\u202f000', 'Wagen 9 (Ex)', 'FIN 1M8GDM9AXKP042788', 'Januar 2021'],
}

describe.each(LANGUAGES)('a fleet report in %s', (language) => {
  test('days, figures and vehicles as its readers write them', () => {
    const words = made.get(language)!.words.replaceAll('\u202f', ' ')
    for (const seen of HABITS[language]) expect(words).toContain(seen.replaceAll('\u202f', ' '))
    if (language !== 'en')
      expect(words.replaceAll(/fleet\.(csv|json)/g, '')).not.toMatch(/\b20\d\d-\d\d\b|\bunit \d|2024 Q/)
  })

  test('nothing runs out of the frame, and the rules of PDF/A-3a and PDF/UA-1 hold', async () => {
    expect(await outsideFrame(await openPdf(made.get(language)!.bytes), 'A4')).toEqual([])
    expect(breaches(made.get(language)!.bytes)).toEqual([])
  })

  test('fleet.csv and fleet.json are the same in every language', () => {
    expect([made.get(language)!.csv, made.get(language)!.json]).toEqual([
      made.get('en')!.csv,
      made.get('en')!.json,
    ])
  })
})

test.each(['es', 'fr', 'de'] as const)(
  'nothing English is left in %s; in an English one the check finds what there is',
  (language) => {
    expect(englishLeft(made.get(language)!.words, language)).toEqual([])
    expect(englishLeft(made.get('en')!.words, language).length).toBeGreaterThan(30)
  },
)
