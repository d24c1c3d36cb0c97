import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { sentencesOf, TEMPLATES } from '../../src/texts/load-texts.ts'

const SRC = fileURLToPath(new URL('../../src', import.meta.url))
const sources = readdirSync(SRC, { recursive: true, encoding: 'utf8' })
  .filter((file) => /\.(ts|mjs)$/.test(file) && !file.endsWith('texts/catalogue.ts'))
  .map((file) => ({ file, text: readFileSync(`${SRC}/${file}`, 'utf8') }))

test('every key of the texts stands in the code as a whole, so that a printed sentence is found by search', () => {
  const written = new Set(
    sources.flatMap(({ text }) => [...text.matchAll(/'([\w.-]+)'/g)].map(([, word]) => word!)),
  )
  const keys = Object.keys(sentencesOf(readFileSync(new URL('texts/en.yaml', TEMPLATES), 'utf8')))
  expect(keys.filter((key) => !written.has(key))).toEqual([])
})

/** A key in the making: the last parts of a key beside what is put in, or the first parts before it. */
const GLUED = [
  /\b(?:say|t|sentence|sentenceOf|sayAgain|saysPlace|said)\(\s*(?:texts,\s*)?(?:\{\s*key:\s*)?`[^`]*\$\{/,
  /\b(?:say|t|sentence|sentenceOf|sayAgain)\(\s*(?:texts,\s*)?'[\w.-]+'\s*\+/,
  /\bkey:\s*`[a-z][\w-]*\.[^`]*\$\{/,
  /`[a-z][\w-]*\.(?:[\w-]+\.)*\$\{[^}]*\}(?:\.[\w-]+)*` as \w*Key/,
]

test('no key is glued together on its way to be said', () => {
  const glued = sources.flatMap(({ file, text }) =>
    GLUED.flatMap((pattern) => (pattern.test(text) ? [`${file}: ${pattern.exec(text)![0]}`] : [])),
  )
  expect(glued).toEqual([])
})

test.each([
  'say(texts, `verdict.${name}`)',
  'sentence(`a.${b}`, {})',
  "t('report.' + name)",
  '{ key: `tests.vacuum.${key}`, args }',
])('%s would be found', (code) => {
  expect(GLUED.some((pattern) => pattern.test(code))).toBe(true)
})
