import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { rowSorter } from '../../src/fleet-run/sort-rows.ts'
import { makeRandom } from '../../src/maths/random.ts'

test('more rows than are held at a time come out sorted, ties by their text, and leave nothing behind', () => {
  const folder = mkdtempSync(join(tmpdir(), 'burnline-sort-'))
  try {
    const random = makeRandom(3)
    const rows = Array.from({ length: 60_000 }, (_, i) => ({
      key: `k\u00e9\n\t${Math.floor(random.uniform() * 5000)}`,
      i,
      pad: 'x'.repeat(400),
    }))
    const sorter = rowSorter<{ key: string; i: number; pad: string }>(folder, 'rows')
    for (const row of rows) sorter.add(row.key, row)
    expect(readdirSync(folder).length).toBeGreaterThan(2)
    const got = [...sorter.sorted()].map(({ key, i }) => [key, JSON.stringify({ key, i, pad: '' })] as const)
    expect(got).toHaveLength(rows.length)
    expect(
      got.every(
        (row, n) =>
          n === 0 || got[n - 1]![0] < row[0] || (got[n - 1]![0] === row[0] && got[n - 1]![1] <= row[1]),
      ),
    ).toBe(true)
    expect(readdirSync(folder)).toEqual([])
  } finally {
    rmSync(folder, { recursive: true })
  }
})
