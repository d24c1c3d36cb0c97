import { appendFileSync, truncateSync, utimesSync } from 'node:fs'
import { expect, test } from 'vitest'
import { StoredBytes } from '../../src/capture/stored-bytes.ts'
import { JobError } from '../../src/problems/problem.ts'
import { scratch } from './as-file.ts'

const file = scratch()
const TEXT = 'time,kv\n0,1\n'

/** What finishing a file says after `change` was made to it while it was being read. */
async function afterChange(name: string, change: (path: string) => void): Promise<readonly string[]> {
  const path = file(name, TEXT.repeat(1000))
  const stored = await StoredBytes.open({ path, file: name })
  try {
    await stored.chunks(true).next()
    change(path)
    await stored.finish()
    return []
  } catch (cause) {
    if (!(cause instanceof JobError)) throw cause
    return cause.problems.map((p) => p.code)
  } finally {
    await stored.close()
  }
}

test.each<[string, (path: string) => void]>([
  ['grew', (path) => appendFileSync(path, TEXT)],
  ['shrank', (path) => truncateSync(path, 10)],
  ['was written over', (path) => utimesSync(path, new Date(0), new Date(0))],
])('a file that %s while it was read is refused', async (name, change) => {
  expect(await afterChange(`${name}.csv`, change)).toEqual(['changed-while-read'])
})

test('a file left alone is vouched for', async () =>
  expect(await afterChange('alone.csv', () => undefined)).toEqual([]))
