import { fileURLToPath } from 'node:url'
import { beforeAll, expect, test } from 'vitest'
import { runJob, type JobOutput } from '../../../src/chain/run-job.ts'
import type { Result } from '../../../src/records/result.ts'
import { loadTexts } from '../../../src/texts/load-texts.ts'
import { PLAIN } from '../../support/plain-options.ts'
import { allText, openPdf } from '../../support/read-pdf.ts'

const texts = loadTexts('en')
const folder = (name: string) => fileURLToPath(new URL(`../../fixtures/captures/${name}`, import.meta.url))

let offIdle: JobOutput
let atIdle: JobOutput
beforeAll(async () => {
  offIdle = await runJob(folder('27-six-bank1-lean-2500'), PLAIN, texts)
  atIdle = await runJob(folder('02-four-lean-hunt-0.5s'), PLAIN, texts)
}, 120_000)

/** Everything the paper says, its lines joined. */
const paperOf = async ({ files }: JobOutput): Promise<string> =>
  (await allText(await openPdf(files.get('report.pdf') as Uint8Array))).replaceAll(/\s+/g, ' ')
const headline = ({ conclusion }: Result) => conclusion.headline.text

test('every verdict off idle says its condition and what it rests on, in the table of the paper', async () => {
  const judged = offIdle.result.cylinders.filter((c) => c.basis !== null)
  expect(judged.length).toBe(6)
  expect((await paperOf(offIdle)).match(/2500 rpm, (against the others|by the limit)/g)?.length).toBe(6)
})

test('so do the headline, which is the line on the terminal, and page one', () => {
  expect(headline(offIdle.result)).toContain('lean on bank 1 (2500 rpm, against the other cylinders)')
  expect(JSON.stringify(offIdle.result.conclusion)).toContain(
    'Recorded at: 2500 rpm. There the other cylinders of the same recording are the measure.',
  )
})

test('at a warm idle nothing of it is said', async () => {
  expect(await paperOf(atIdle)).not.toMatch(/, against the others|idle, by the limit/)
  expect(headline(atIdle.result)).not.toMatch(/against the other cylinders|by the limit/)
})
