import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { placeKey } from '../../../src/test-log/place/read-words.ts'

// Ways workshops write places, in four languages: common practice, no source. Written down before the reader was looked at.
const rows = readFileSync(new URL('shorthand.tsv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split('\t') as [meant: string, language: string, written: string])

describe('places as workshops write them', () => {
  test.each(rows)('%s (%s): %s', (meant, _, written) => {
    expect(placeKey(written)).toBe(placeKey(meant))
  })
  test('and no two of the places meant are one', () => {
    const meant = [...new Set(rows.map(([place]) => place))]
    expect(new Set(meant.map(placeKey)).size).toBe(meant.length)
  })
})
