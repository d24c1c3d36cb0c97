import { readdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { beforeAll, describe, expect, test } from 'vitest'
import { recordJob } from '../../src/chain/run-job.ts'
import type { Result } from '../../src/records/result.ts'
import { LANGUAGES, loadTexts, type Language } from '../../src/texts/load-texts.ts'
import { sayAgain, type SavedSentence } from '../../src/texts/say.ts'
import { caseFolder, caseNames } from '../support/cases.ts'
import { KEPT } from '../support/kept-measurements.ts'
import { inTurn } from '../support/long-run.ts'

type Saved = SavedSentence & { text: string }

/** Every statement of a result, with its place in it. */
function statementsIn(value: unknown, path = ''): [path: string, statement: Saved][] {
  if (typeof value !== 'object' || value === null) return []
  const here =
    'key' in value && 'args' in value && 'text' in value ? [[path, value as Saved] as [string, Saved]] : []
  return [...here, ...Object.entries(value).flatMap(([name, part]) => statementsIn(part, `${path}/${name}`))]
}

/** As a reader of the file gets it. */
async function savedResult(folder: string, language: Language): Promise<Result> {
  const { records } = await recordJob(
    folder,
    { page: 'A4', version: '0', embedCaptures: false, program: 'test', store: KEPT },
    loadTexts(language),
  )
  return JSON.parse(records.get('result.json')!) as Result
}

const INPUTS = fileURLToPath(new URL('../../inputs', import.meta.url))
const OTHERS = LANGUAGES.filter((language) => language !== 'en')
type Case = [job: string, folder: string, others: readonly Language[]]
const DEMO_JOBS = readdirSync(INPUTS).map((job): Case => [job, `${INPUTS}/${job}`, OTHERS])
const WORKED_JOBS = caseNames().map((job, i): Case => [job, caseFolder(job), inTurn(OTHERS, i)])

describe.each([...DEMO_JOBS, ...WORKED_JOBS])('%s', (_, folder, others) => {
  const made = new Map<Language, Result>()
  beforeAll(async () => {
    for (const language of ['en', ...others] as const) made.set(language, await savedResult(folder, language))
  }, 300_000)

  test.each(others)('the English record said again is the one made in %s', (language) => {
    const texts = loadTexts(language)
    const english = statementsIn(made.get('en'))
    const own = new Map(statementsIn(made.get(language)))
    expect(english.length).toBeGreaterThan(20)
    expect(english.map(([path]) => path)).toEqual([...own.keys()])
    const again = english.map(([path, saved]) => [path, sayAgain(texts, saved)])
    expect(again).toEqual([...own].map(([path, { text }]) => [path, text]))
  })

  test('and in its own language it is what stands beside it', () => {
    const texts = loadTexts('en')
    for (const [path, saved] of statementsIn(made.get('en')))
      expect(sayAgain(texts, saved), path).toBe(saved.text)
  })
})
