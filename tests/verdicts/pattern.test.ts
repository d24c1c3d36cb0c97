import { expect, test } from 'vitest'
import { enginePattern } from '../../src/verdicts/pattern.ts'
import type { VerdictName } from '../../src/verdicts/verdict-names.ts'

const banks = { 1: [1, 3, 5], 2: [2, 4, 6] }
const verdicts = (...list: VerdictName[]) => new Map(list.map((v, i) => [i + 1, v]))

// Reading of a pattern over the engine: common practice, no source.
test.each([
  ['all lean', verdicts('lean', 'lean', 'lean', 'lean', 'lean', 'lean'), 'all'],
  ['all lean but one not judged', verdicts('lean', 'lean', 'not judged', 'lean', 'lean', 'lean'), 'all'],
  ['one bank', verdicts('lean', 'level', 'lean', 'level', 'lean', 'level'), 'bank 1'],
  [
    'the other bank, one of it not judged',
    verdicts('level', 'lean', 'level', 'not judged', 'level', 'lean'),
    'bank 2',
  ],
  ['two of one bank only', verdicts('lean', 'level', 'lean', 'level', 'level', 'level'), 'mixed'],
  ['one', verdicts('level', 'level', 'level', 'level', 'falling', 'level'), 'cylinder 5'],
  ['rich and falling are one family', verdicts('rich', 'falling', 'rich', 'rich', 'falling', 'rich'), 'all'],
  ['lean and falling are not', verdicts('lean', 'falling', 'level', 'level', 'level', 'level'), 'mixed'],
  ['none', verdicts('level', 'level', 'level', 'borderline', 'level', 'level'), 'none'],
  ['nothing judged', verdicts('not judged', 'not judged'), 'none'],
])('%s', (_, given, expected) => {
  expect(enginePattern(given, banks).pattern).toBe(expected)
})
