import { beforeAll, describe, expect, test } from 'vitest'
import type { Result } from '../../src/records/result.ts'
import { LANGUAGES, loadTexts } from '../../src/texts/load-texts.ts'
import { sayAgain, type SavedSentence } from '../../src/texts/say.ts'
import { demoResult } from '../support/demo-result.ts'

type Saved = SavedSentence & { text: string }

/** Every statement of a result, with its place in it. */
function statementsIn(value: unknown, path = ''): [path: string, statement: Saved][] {
  if (typeof value !== 'object' || value === null) return []
  const here =
    'key' in value && 'args' in value && 'text' in value ? [[path, value as Saved] as [string, Saved]] : []
  return [...here, ...Object.entries(value).flatMap(([name, part]) => statementsIn(part, `${path}/${name}`))]
}

describe.each(['brake-hose-leak-v8'])('%s', (job) => {
  const made = new Map<string, Result>()
  beforeAll(async () => {
    for (const language of LANGUAGES) made.set(language, await demoResult(job, language))
  }, 300_000)

  test.each(LANGUAGES.filter((language) => language !== 'en'))(
    'the English record said again is the one made in %s',
    (language) => {
      const texts = loadTexts(language)
      const english = statementsIn(made.get('en'))
      expect(english.length).toBeGreaterThan(50)
      const own = new Map(statementsIn(made.get(language)))
      for (const [path, saved] of english) expect(sayAgain(texts, saved), path).toBe(own.get(path)?.text)
    },
  )

  test('and in its own language it is what stands beside it', () => {
    for (const [path, saved] of statementsIn(made.get('en')))
      expect(sayAgain(loadTexts('en'), saved), path).toBe(saved.text)
  })
})
