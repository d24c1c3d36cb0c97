import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { PLAIN } from '../support/plain-options.ts'
import { runJob } from '../../src/chain/run-job.ts'
import { DEMO_JOBS } from '../../src/demo/demo-jobs.ts'
import { problemSentence } from '../../src/texts/say-problem.ts'
import { LANGUAGES, loadTexts, type Language } from '../../src/texts/load-texts.ts'
import { englishLeft } from '../support/english-left.ts'
import { inTurn } from '../support/long-run.ts'
import { allText, openPdf } from '../support/read-pdf.ts'

let root: string
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'burnline-languages-'))
})
afterAll(() => rmSync(root, { recursive: true, force: true }))

const demo = (folder: string) => fileURLToPath(new URL(`../../inputs/${folder}`, import.meta.url))

async function reportIn(language: Language, folder: string) {
  const { result, files, warnings } = await runJob(folder, PLAIN, loadTexts(language))
  return {
    result,
    warnings,
    words: (await allText(await openPdf(Buffer.from(files.get('report.pdf')!)))).replaceAll(/\s+/g, ' '),
  }
}

/** A demo job with as many mistakes as a job may have and still be read. */
function carelessJob(): string {
  const folder = join(root, 'careless')
  cpSync(demo('slow-recorder-van'), folder, { recursive: true })
  const yaml = readFileSync(join(folder, 'job.yaml'), 'utf8')
  const changed = yaml
    .replace(/^ *voltage_uncertainty_percent:.*\n/m, '')
    .replace(/^vehicle:\n/m, 'vehicle:\n  vin: 1M8GDM9A1KP042788\n  plate: “DEMO 7”\n')
    .replace(/^ *plate: DEMO.*\n/m, '')
    .replace(/^ *displacement_l:.*\n/m, '')
    .replace(/^engine:\n/m, 'engine:\n  displacement_l: 99\n')
    .replace(/^complaint: .*\n/m, 'complaint: Shakes at idle #3 of the day\n')
  writeFileSync(join(folder, 'job.yaml'), changed)
  const log = readFileSync(join(folder, 'test-log.csv'), 'utf8').split('\n')
  const at = /^(\d{4})(.*?),/m.exec(log[1]!)!
  const row = log[0]!
    .split(',')
    .map(
      (column) =>
        (
          ({
            at: `${Number(at[1]) - 1}${at[2]}`,
            step: 'gas',
            reading: 'CO',
            value: '60',
            unit: '%vol',
          }) as Record<string, string>
        )[column] ?? '',
    )
  writeFileSync(
    join(folder, 'test-log.csv'),
    [...log.filter((line) => line !== ''), row.join(',')].join('\n') + '\n',
  )
  return folder
}

test('warnings of the reading are printed in the language of the report', async () => {
  const folder = carelessJob()
  // The English one shows that the measure finds English.
  for (const language of [
    'en',
    ...inTurn(
      LANGUAGES.filter((l) => l !== 'en'),
      0,
    ),
  ] as const) {
    const { result, warnings, words } = await reportIn(language, folder)
    expect(new Set(warnings.map(({ code }) => code))).toEqual(
      new Set([
        'default-uncertainty',
        'vin-check-digit',
        'unusual-value',
        'text-cut',
        'word-quotes',
        'date-outside',
      ]),
    )
    // A long name may be broken over two lines.
    const unbroken = (text: string) => text.replaceAll(/\s/g, '')
    for (const problem of warnings) {
      const sentence = problemSentence(loadTexts(language), problem)
      expect(unbroken(words).includes(unbroken(sentence)), sentence).toBe(true)
    }
    expect(result.problems).toHaveLength(warnings.length)
    if (language !== 'en') expect(englishLeft(words, language)).toEqual([])
    else expect(englishLeft(words, 'de').length).toBeGreaterThan(100)
  }
}, 120_000)

test.each(
  DEMO_JOBS.flatMap(({ folder }, i) =>
    inTurn(['es', 'fr', 'de'] as const, i).map((l) => [folder, l] as const),
  ),
)(
  'no sentence of the program is left in English in the report of %s in %s',
  async (folder, language) => {
    expect(englishLeft((await reportIn(language, demo(folder))).words, language)).toEqual([])
  },
  60_000,
)
