import { expect, test } from 'vitest'
import { capProblems } from '../../src/problems/cap-problems.ts'
import { problem } from '../../src/problems/problem.ts'

const many = (count: number, severity: 'refuse' | 'warn') =>
  Array.from({ length: count }, (_, i) =>
    problem('missing-key', { file: 'job.yaml', line: i + 1, severity }, { key: String(i) }),
  )

test('few problems stay as they are', () => {
  expect(capProblems('job.yaml', many(3, 'refuse'))).toEqual(many(3, 'refuse'))
})

test('the rest is counted, not shown', () => {
  const shown = capProblems('job.yaml', many(250, 'refuse'))
  expect(shown).toHaveLength(101)
  expect(shown[100]).toMatchObject({ code: 'more-problems', severity: 'refuse', args: { count: 150 } })
})

test('a refusal is never hidden behind warnings', () => {
  const shown = capProblems('job.yaml', [...many(150, 'warn'), ...many(1, 'refuse')])
  expect(shown[0]!.severity).toBe('refuse')
  expect(shown[100]).toMatchObject({ code: 'more-problems', severity: 'warn', args: { count: 51 } })
})
