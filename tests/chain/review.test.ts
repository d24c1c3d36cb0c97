import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { checkJob } from '../../src/chain/check-job.ts'
import { recordJob, runJob } from '../../src/chain/run-job.ts'
import { redactResult } from '../../src/records/redact/redact-result.ts'
import { revised } from '../../src/records/parts/revision.ts'
import { resultSchema, type Result } from '../../src/records/result.ts'
import { LANGUAGES, loadTexts } from '../../src/texts/load-texts.ts'
import { say, sayAgain } from '../../src/texts/say.ts'
import { PLAIN } from '../support/plain-options.ts'
import { allText, openPdf, pageText } from '../support/read-pdf.ts'

const texts = loadTexts('en')
const demo = fileURLToPath(new URL('../../inputs/third-cylinder-valve', import.meta.url))
let root: string
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'burnline-review-'))
})
afterAll(() => rmSync(root, { recursive: true, force: true }))

let made = 0
/** A copy of a demo job, reviewed; and the line its first review stands in. */
function reviewed(review: string): { folder: string; first: number } {
  const folder = join(root, String(made++))
  cpSync(demo, folder, { recursive: true })
  const path = join(folder, 'job.yaml')
  const yaml = `${readFileSync(path, 'utf8').trimEnd()}\nreview:\n`
  writeFileSync(path, yaml + review)
  return { folder, first: yaml.split('\n').length }
}
const ENTRY = { by: 'R. Example', at: '2026-03-05', reason: 'invented' }
const entry = (of: object): string => `  - ${JSON.stringify({ ...ENTRY, ...of })}\n`

describe('check names each review that cannot be held against the report', () => {
  test.each<[string, object, string]>([
    ['a word that is no verdict', { of: 'verdict', cylinder: 1, instead: 'leen' }, 'review-unknown lean'],
    ['a verdict for a cause', { of: 'cause', instead: 'lean' }, 'review-unknown other'],
    ['a word near two causes', { of: 'cause', instead: 'injector-leak' }, 'review-unknown injector-leaking'],
    ['a cylinder the engine lacks', { of: 'verdict', cylinder: 5, instead: 'lean' }, 'inconsistent 1 … 4'],
    [
      'a place the engine lacks',
      { of: 'cause', instead: 'plug-worn', place: 'cylinder 7' },
      'inconsistent 1 … 4',
    ],
    ['a bank the engine lacks', { of: 'cause', instead: 'leak-manifold', place: 'bank 2' }, 'inconsistent –'],
    ['no cylinder', { of: 'verdict', instead: 'lean' }, 'missing-key '],
    ['a cylinder of a cause', { of: 'cause', cylinder: 1, instead: 'other' }, 'inconsistent of: verdict'],
    [
      'a place of a verdict',
      { of: 'verdict', cylinder: 1, place: 'x', instead: 'lean' },
      'inconsistent of: cause',
    ],
    [
      'a day before the job',
      { of: 'cause', instead: 'other', at: '2026-03-03' },
      'inconsistent ≥ 2026-03-04',
    ],
    ['no reason', { of: 'cause', instead: 'other', reason: '' }, 'wrong-value phrase.text'],
    ['a key misspelt', { of: 'cause', instead: 'other', plase: 'x' }, 'unknown-key place'],
  ])('%s', async (_, review, expected) => {
    const { folder, first } = reviewed(
      entry({ of: 'cause', instead: 'other', place: 'elsewhere' }) + entry(review),
    )
    const problems = (await checkJob(folder, { captures: false })).problems.filter(
      (p) => p.severity === 'refuse',
    )
    expect(
      problems.map(({ code, line, args }) => {
        const { nearest, expected: wanted } = args as { nearest?: string; expected?: string }
        return [line, `${code} ${nearest ?? wanted ?? ''}`]
      }),
    ).toEqual([[first + 1, expected]])
  })

  test('the same finding overruled twice', async () => {
    const { folder } = reviewed(
      entry({ of: 'verdict', cylinder: 1, instead: 'lean' }) +
        entry({ of: 'verdict', cylinder: 1, stage: 'before', instead: 'rich' }) +
        entry({ of: 'verdict', cylinder: 1, stage: 'after', instead: 'rich' }),
    )
    const { problems } = await checkJob(folder, { captures: false })
    expect(problems.filter((p) => p.severity === 'refuse').map(({ code }) => code)).toEqual([
      'duplicate-entry',
    ])
  })

  test('report refuses what check refuses', async () => {
    const { folder } = reviewed(entry({ of: 'verdict', cylinder: 1, instead: 'leen' }))
    await expect(recordJob(folder, PLAIN, texts)).rejects.toMatchObject({
      problems: [{ code: 'review-unknown' }],
    })
  })
})

describe('a report that a person overrules', () => {
  let plain: Result
  let result: Result
  let pages: string[]
  let words: string
  beforeAll(async () => {
    plain = (await recordJob(demo, PLAIN, texts)).result
    const { folder } = reviewed(
      entry({ of: 'verdict', cylinder: 1, instead: 'borderline', reason: 'it wanders at 640 rpm' }) +
        entry({ of: 'cause', instead: 'injector-leaking', place: 'cylinder 3', reason: 'plug 3 is wet' }) +
        entry({ of: 'verdict', cylinder: 3, instead: 'low compression', by: 'T. Sample' }) +
        entry({ of: 'verdict', cylinder: 2, stage: 'after', instead: 'lean' }),
    )
    const output = await runJob(folder, PLAIN, texts)
    result = output.result
    const doc = await openPdf(Buffer.from(output.files.get('report.pdf')!))
    words = (await allText(doc)).replaceAll(/\s+/g, ' ')
    pages = await Promise.all([1, 2].map((page) => pageText(doc, page)))
  })

  test('the record has both, and is of its schema', () => {
    expect(() => resultSchema.parse(result)).not.toThrow()
    expect(
      result.review!.map(({ of, cylinder, stage, said, said_place, instead, place, agrees, by }) =>
        [of, cylinder, stage, said, said_place, instead, place, agrees, by].join(' '),
      ),
    ).toEqual([
      'verdict 1 before level  borderline  false R. Example',
      'cause   compression-loss cylinder 3 injector-leaking cylinder 3 false R. Example',
      'verdict 3 before low compression  low compression  true T. Sample',
      'verdict 2 after   lean  false R. Example',
    ])
    expect(plain.review).toBeUndefined()
  })

  test('the conclusion stays what it was, and everything else that was found', () => {
    const without = (of: Result) => ({ ...of, review: undefined, inputs: [], limits: [], sources: [] })
    expect(without(result)).toEqual(without(plain))
    expect(result.conclusion).toEqual(plain.conclusion)
  })

  test('page one and the record say that there is another view; a page has both with the reason; the person signs', () => {
    const flat = pages.map((page) => page.replaceAll(/\s+/g, ' '))
    for (const page of flat)
      expect(page).toContain(
        'R. Example overrules the verdict on cylinder 1 as found: borderline, not mixture in order',
      )
    for (const seen of [
      'it wanders at 640 rpm',
      'plug 3 is wet',
      'Injector leaks or passes too much: cylinder 3',
      'Overrules as listed under “Overruled by a person” R. Example',
    ])
      expect(words).toContain(seen)
    // who agrees signs nothing
    expect(words).not.toContain('Overrules as listed under “Overruled by a person” T. Sample')
  })

  test.each(LANGUAGES)('each sentence can be said again in %s', (language) => {
    for (const { says } of result.review!)
      expect(sayAgain(loadTexts(language), says).length).toBeGreaterThan(20)
  })

  test('a reissue says that findings are overruled now', () => {
    const changes = revised(texts, result, { result: plain, sha256: '0' }).revision!.changes
    expect(changes.map(({ text }) => text)).toContain(say(texts, 'revision.review', { before: 0, after: 3 }))
  })

  test('a redacted copy has neither name nor reason', () => {
    const copy = JSON.stringify(redactResult(result, ['technician', 'words'], { mask: '[x]' }))
    for (const word of ['R. Example', 'plug 3 is wet', 'T. Sample']) expect(copy).not.toContain(word)
    expect(copy).toContain('injector-leaking')
  })
})
