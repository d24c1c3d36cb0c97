import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { say, sayAgain, sayer } from '../../src/texts/say.ts'
import { sentence, type Texts } from '../../src/texts/messages.ts'

test('the types of keys and arguments are those of templates/', () => {
  const script = fileURLToPath(new URL('../../src/write-catalogue.mjs', import.meta.url))
  const { status, stderr } = spawnSync(process.execPath, [script, '--check'], { encoding: 'utf8' })
  expect(stderr).toBe('')
  expect(status).toBe(0)
})

test('a missing key, argument or kind of argument, and one too many, do not compile', () => {
  const never = (texts: Texts) => {
    // @ts-expect-error no such key
    say(texts, 'list.nor')
    // @ts-expect-error an argument is missing
    say(texts, 'list.and', { first: 'a' })
    // @ts-expect-error an argument too many
    say(texts, 'list.and', { first: 'a', last: 'b', third: 'c' })
    // @ts-expect-error words where a figure is needed
    say(texts, 'report.page-of', { page: 'one', pages: 2 })
    // @ts-expect-error all arguments are missing
    sentence('list.and')
    // @ts-expect-error an argument where none is needed
    sayer(texts)('list.comma', { first: 'a' })
    // @ts-expect-error a sentence that nobody has held against the catalogue
    say(texts, { key: 'list.and', args: {} })
  }
  expect(never).toBeTypeOf('function')
})

const texts: Texts = {
  language: 'en',
  templates: {
    'list.and': '{first} and {last}',
    'list.comma': ', ',
    'list.semicolon': '; ',
    outer: 'Seen: {inner}',
    'outer-whole': '“{inner:whole}”',
    inner: 'the hose {name} moved{.}',
    figures: '{all:d1}',
  },
}
const inner = { key: 'inner', args: { name: { words: 'A & B' } } }

test.each([
  ['a sentence alone ends in its full stop', inner, 'the hose A & B moved.'],
  ['within another it has none', { key: 'outer', args: { inner } }, 'Seen: the hose A & B moved'],
  ['unless it stands there whole', { key: 'outer-whole', args: { inner } }, '“the hose A & B moved.”'],
  [
    'a list',
    { key: 'outer', args: { inner: { list: ['a', { words: 'b' }, 'c'], joined: 'and' } } },
    'Seen: a, b and c',
  ],
  ['a list of one', { key: 'outer', args: { inner: { list: ['a'], joined: 'and' } } }, 'Seen: a'],
  ['a list of figures', { key: 'figures', args: { all: { list: [1, 2], joined: 'semicolon' } } }, '1.0; 2.0'],
])('%s', (_, said, words) => {
  expect(sayAgain(texts, said)).toBe(words)
})

test('a record with a key or argument that is not there is told, never shown as a blank', () => {
  expect(() => sayAgain(texts, { key: 'gone', args: {} })).toThrow("no text for 'gone'")
  expect(() => sayAgain(texts, { key: 'outer', args: {} })).toThrow("needs 'inner'")
})
