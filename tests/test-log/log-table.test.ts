import { expect, test } from 'vitest'
import { logTable } from '../../src/job/log-table.ts'

// NEL, LS and PS end a line for some programs (Unicode 5.8); behind the last row they are no part of its note.
test.each(['\n', '\r\n', '\r', '\u0085', '\u2028', '\u2029', ''])('a last row ended by %j', (end) => {
  const { rows, problems } = logTable('test-log.csv', `at,step,note\n2026-03-04,note,new gasket${end}`)
  expect([rows.at(-1)!.cells.at(-1), problems]).toEqual(['new gasket', []])
})
