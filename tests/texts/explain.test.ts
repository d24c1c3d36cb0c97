import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { explain, explainedCodes, meaningOf } from '../../src/texts/explain.ts'
import { LANGUAGES, loadTexts } from '../../src/texts/load-texts.ts'

const texts = loadTexts('en')
const codes = (prefix: string): string[] =>
  Object.keys(texts.templates)
    .filter((key) => key.startsWith(prefix) && key.split('.').length === 2)
    .map((key) => key.slice(prefix.length))

test('every problem and every remark is explained, and nothing else', () => {
  expect(explainedCodes()).toEqual([...codes('problem.'), ...codes('remark.')].sort())
})

test('no code is both a problem and a remark', () => {
  expect(codes('problem.').filter((code) => codes('remark.').includes(code))).toEqual([])
})

test('every remark the ignition stage makes has its sentence', () => {
  const folder = fileURLToPath(new URL('../../src/ignition/', import.meta.url))
  const sources = readdirSync(folder)
    .map((f) => readFileSync(folder + f, 'utf8'))
    .join('\n')
  const made = [...sources.matchAll(/code: '([a-z-]+)'|\badd\('([a-z-]+)'/g)].map((m) => m[1] ?? m[2]!)
  expect(made.length).toBeGreaterThan(5)
  expect(made.filter((code) => !codes('remark.').includes(code))).toEqual([])
})

test.each(explainedCodes())('%s: what it means, an example, what to do', (code) => {
  const { means, example, toDo } = explain(texts, code)!
  expect(texts.templates[`explain.${code}`]!.split('\n')).toHaveLength(2)
  expect(means.length).toBeGreaterThan(20)
  expect(example).toMatch(/^Example: .{10}/)
  expect(toDo.length).toBeGreaterThan(10)
})

test('what a code means stands in every language for each that is explained', () => {
  for (const language of LANGUAGES) {
    const own = loadTexts(language)
    expect(
      Object.keys(own.templates)
        .filter((key) => key.startsWith('meaning.'))
        .map((key) => key.slice('meaning.'.length))
        .sort(),
    ).toEqual(explainedCodes())
    expect(meaningOf(own, 'no-such')).toBe('')
  }
})

test('an unknown code, or one that objects carry by themselves, is not explained', () => {
  expect([explain(texts, 'no-such'), explain(texts, 'constructor'), explain(texts, '')]).toEqual([
    undefined,
    undefined,
    undefined,
  ])
})
