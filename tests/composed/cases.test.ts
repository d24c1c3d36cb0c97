import { readdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { PLAIN } from '../support/plain-options.ts'
import { recordJob } from '../../src/chain/run-job.ts'
import { rowOfResult } from '../../src/fleet/fleet-row.ts'
import { outcomeOf } from '../../src/fleet/tally.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { amiss, caseFolder, caseNames, expectedOf } from '../support/cases.ts'
import { PREDICATES } from '../support/composed/predicates/all.ts'
import { pageOneOf } from '../support/page-one.ts'

const texts = loadTexts('en')

/** What a reader sees of a job folder's report, and the records. */
async function seenOf(folder: string) {
  const { result, records } = await recordJob(folder, PLAIN, texts)
  return {
    result,
    page: (await pageOneOf(result, texts)).words,
    cylindersCsv: records.get('cylinders.csv')!,
    testsCsv: records.get('tests.csv')!,
    truth: undefined,
  }
}

const broken = (seen: Awaited<ReturnType<typeof seenOf>>) =>
  PREDICATES.flatMap((p) => p.breaches(seen).map((what) => `${p.id}: ${what}`))

// Truth: what a master technician expects of each (tests/fixtures/cases).
describe.each(caseNames())('%s', (name) => {
  test('concludes what is expected, and nothing that must not be said', async () => {
    const seen = await seenOf(caseFolder(name))
    const inOrder =
      outcomeOf({ ...rowOfResult(seen.result), vehicle: '', repeat: '' } as never) === 'in order'
    expect(amiss(expectedOf(name), { ...seen, inOrder })).toEqual([])
    expect(broken(seen)).toEqual([])
  })
})

const INPUTS = fileURLToPath(new URL('../../inputs/', import.meta.url))
describe.each(readdirSync(INPUTS))('demo job %s', (name) => {
  test('says nothing that must not be said', async () =>
    expect(broken(await seenOf(`${INPUTS}${name}`))).toEqual([]))
})
