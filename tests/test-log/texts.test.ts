import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { loadTexts } from '../../src/texts/load-texts.ts'

const folder = fileURLToPath(new URL('../../src/test-log', import.meta.url))
const source = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((f) => f.endsWith('.ts'))
  .map((f) => readFileSync(join(folder, f), 'utf8'))
  .join('\n')
const { templates } = loadTexts('en')
const known = Object.keys(templates).filter((k) => k.startsWith('tests.'))
/** Keys as written; where a part is put in by `${...}`, what stands before it. */
const written = [...source.matchAll(/['`](tests\.[\w.-]*)(['`]|\$\{)/g)].map(([, start, end]) => ({
  start: start!,
  open: end === '${',
}))
const says = ({ start, open }: { start: string; open: boolean }, key: string) =>
  open ? key.startsWith(start) : key === start

test('every key that is said has a sentence', () => {
  expect(written.length).toBeGreaterThan(40)
  expect(written.filter((w) => !known.some((k) => says(w, k)))).toEqual([])
})

test('every sentence of the tests is said somewhere', () => {
  expect(known.filter((k) => !written.some((w) => says(w, k)))).toEqual([])
})
