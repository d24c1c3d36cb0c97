import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import ts from 'typescript'
import { describe, expect, test } from 'vitest'
import { problem, type Problem } from '../../src/problems/problem.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { problemSentence, sayProblem } from '../../src/texts/say-problem.ts'

const texts = loadTexts('en')
const keys = (prefix: string) =>
  Object.keys(texts.templates)
    .filter((key) => key.startsWith(prefix))
    .sort()
const placeholders = (template: string) => [...template.matchAll(/\{(\w+)(?::[\w.]+)?\}/g)].map((m) => m[1]!)

/** The codes and the names of their arguments, read from the declaration of ProblemArgs by the TypeScript parser. */
function declaredCodes(): Map<string, string[]> {
  const path = fileURLToPath(new URL('../../src/problems/codes.ts', import.meta.url))
  const source = ts.createSourceFile(path, readFileSync(path, 'utf8'), ts.ScriptTarget.Latest, true)
  const args = source.statements.find(
    (s) => ts.isInterfaceDeclaration(s) && s.name.text === 'ProblemArgs',
  ) as ts.InterfaceDeclaration
  const nameOf = (member: ts.TypeElement) => (member.name as ts.StringLiteral | ts.Identifier).text
  return new Map(
    args.members.map((m) => {
      const type = (m as ts.PropertySignature).type!
      // A code without arguments is written as a record of none.
      return [nameOf(m), ts.isTypeLiteralNode(type) ? type.members.map(nameOf) : []]
    }),
  )
}
const codes = declaredCodes()

test('every code has its sentence, and every sentence its code', () => {
  expect(codes.size).toBeGreaterThan(40)
  expect(keys('problem.')).toEqual([...codes.keys()].map((code) => `problem.${code}`).sort())
})

test.each([...codes])('problem.%s says its arguments and no other', (code, args) => {
  const used = placeholders(texts.templates[`problem.${code}`]!)
  expect(used.filter((name) => !args.includes(name))).toEqual([])
})

test('the texts given to the program hold every phrase the code names, and the code names every phrase', () => {
  const folder = fileURLToPath(new URL('../../src/', import.meta.url))
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((f) => f.endsWith('.ts'))
  const sources = files.map((f) => readFileSync(folder + f, 'utf8'))
  const named = new Set(sources.flatMap((s) => [...s.matchAll(/'(phrase\.[a-z0-9-]+)'/g)].map((m) => m[1]!)))
  const plain = keys('phrase.').filter((key) => key.split('.').length === 2)
  expect([...named].sort()).toEqual(plain)
})

test('a reason by code belongs to a problem that gives a reason', () => {
  const reasons = keys('phrase.')
    .map((key) => key.split('.'))
    .filter((parts) => parts.length > 2)
  expect(reasons.filter(([, code]) => !codes.get(code!)?.includes('why'))).toEqual([])
})

test('the codes said as reasons are those the program gives', () => {
  const source = (file: string) =>
    readFileSync(new URL(`../../src/ignition/${file}`, import.meta.url), 'utf8')
  const losses = /type SyncLoss =([^;]+?)\n\n/.exec(source('assign-cylinder.ts'))![1]!
  expect(keys('phrase.sync-lost.')).toEqual(
    [...losses.matchAll(/'([^']+)'/g)].map((m) => `phrase.sync-lost.${m[1]}`).sort(),
  )
})

describe('how a problem is said', () => {
  test.each<[string, Problem, string]>([
    [
      'place and sentence',
      problem('missing-key', { file: 'job.yaml', line: 3, column: 5 }, { key: 'complaint' }),
      'job.yaml:3:5: “complaint”',
    ],
    ['no column', problem('missing-key', { file: 'job.yaml', line: 3 }, { key: 'a' }), 'job.yaml:3: “a”'],
    [
      'no line',
      problem('missing-file', { file: 'job.yaml' }, { path: 'job.yaml', nearest: '' }),
      'job.yaml: There is no file',
    ],
  ])('%s', (_, p, start) => expect(sayProblem(texts, p).startsWith(start)).toBe(true))

  test('a phrase stands for its key', () => {
    const p = problem(
      'wrong-value',
      { file: 'job.yaml' },
      { key: 'opened', found: 'soon', expected: 'phrase.date' },
    )
    expect(problemSentence(texts, p)).toContain(texts.templates['phrase.date'])
  })

  test('a code stands for its reason', () => {
    const p = problem('sync-lost', { file: 'a.csv' }, { why: 'no-pulses', fromS: 0, toS: 1 })
    expect(problemSentence(texts, p)).toContain(texts.templates['phrase.sync-lost.no-pulses'])
  })

  test('nothing known is said, not left blank', () => {
    const p = problem('date-outside', { file: 'job.yaml' }, { found: '2026-03-04', opened: '', closed: '' })
    expect(problemSentence(texts, p)).toContain(texts.templates['phrase.none'])
    const far = problem('unknown-trace', { file: 'test-log.csv' }, { found: 'a.csv', nearest: '' })
    expect(problemSentence(texts, far)).toBe(
      '“a.csv” is not a trace of job.yaml. Correct the name, or list the file under traces.',
    )
  })

  test('a found name cannot forge a line or turn the writing round', () => {
    const path = 'a.csv\njob.yaml:1: all in order\u202egnp\u001b[2J'
    const said = sayProblem(texts, problem('missing-file', { file: path }, { path, nearest: '' }))
    expect(said).not.toMatch(/[\u0000-\u001f\u202e]/)
    expect(said).toContain('\\u{202e}')
  })
})
