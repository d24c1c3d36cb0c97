import { readdirSync } from 'node:fs'
import { expect, test } from 'vitest'
import { LANGUAGES, loadTexts } from '../../../src/texts/load-texts.ts'
import { VERDICTS } from '../../../src/verdicts/kinds/index.ts'
import { RULES } from '../../../src/verdicts/rules/index.ts'

const folder = new URL('../../../src/verdicts/kinds/', import.meta.url)

test('the words are those of the contract for cylinders.csv, in its order', () => {
  const words =
    'level, lean, falling, rich, low compression, borderline, external resistance, open secondary, misfiring, not judged'
  expect(VERDICTS.map((v) => v.name).join(', ')).toBe(words)
})

test('every verdict is a file of its name, and no file is left out', () => {
  const files = readdirSync(folder).filter((f) => !['all.ts', 'define-verdict.ts', 'index.ts'].includes(f))
  expect(VERDICTS.map((v) => `${v.name.replace(' ', '-')}.ts`).toSorted()).toEqual(files.toSorted())
})

test.each(VERDICTS.map((v) => [v.name, v] as const))(
  '%s has its words, and a rule that says it',
  (name, verdict) => {
    for (const language of LANGUAGES)
      for (const key of [verdict.words, verdict.means, verdict.signWords])
        expect(loadTexts(language).templates[key], `${language} ${key}`).toBeTruthy()
    expect(RULES.some((rule) => rule.verdict === name)).toBe(true)
  },
)

test('a sign means one thing', () => {
  const meaning = new Map<string, string>()
  for (const { sign, signWords, name } of VERDICTS) {
    expect(meaning.get(sign) ?? signWords, name).toBe(signWords)
    meaning.set(sign, signWords)
  }
})

test('what is wrong can be repaired, and only that', () => {
  for (const { name, family, repairs } of VERDICTS)
    expect(repairs !== undefined, name).toBe(family !== undefined)
})
