import { expect, test } from 'vitest'
import { guessesLeft } from '../../src/job/guesses.ts'

const places = (text: string) =>
  guessesLeft('job.yaml', text).map((p) => `${p.severity} ${p.code}:${p.line}:${p.column}`)

test('each marked value is named with its place', () => {
  expect(places('a: 1\nb: 2  # guess: why\r\nc: 3\n  - { d: 4 }  # guess: x, y\n')).toEqual([
    'warn guess-left:2:7',
    'warn guess-left:4:15',
  ])
})
test('the value stands in the problem', () => {
  expect(guessesLeft('job.yaml', '  b: two  # guess: why\n')[0]!.args).toEqual({ found: 'b: two' })
})
test.each([
  '# guess: a whole line is a remark of its own',
  'a: 1 # a guess: no',
  'a: 1',
  'a: x#guess: 1',
  '',
])('“%s” is no mark', (line) => {
  expect(places(`${line}\n`)).toEqual([])
})
