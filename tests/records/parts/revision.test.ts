import { describe, expect, test } from 'vitest'
import { revised } from '../../../src/records/parts/revision.ts'
import { resultSchema, type Result } from '../../../src/records/result.ts'
import { sampleJob, sampleTexts } from '../../support/sample-result.ts'

const texts = sampleTexts()
const { result: first } = sampleJob({ cylinders: 4, tests: 2 })
const sha256 = 'a'.repeat(64)
const keys = (result: Result) => result.revision!.changes.map(({ key }) => key)

describe('a report made again (ISO/IEC 17025:2017, 7.8.8)', () => {
  test('has the next number and points to the one it replaces', () => {
    const second = revised(texts, first, { result: first, sha256 })
    expect(second.revision).toMatchObject({ number: 2, replaces: { number: 1, result_sha256: sha256 } })
    expect(keys(second)).toEqual(['revision.nothing'])
    expect(revised(texts, first, { result: second, sha256 }).revision!.number).toBe(3)
    expect(() => resultSchema.parse(second)).not.toThrow()
  })

  test('says what changed: files, program, limits, verdicts, repair', () => {
    const now: Result = {
      ...first,
      inputs: [
        ...first.inputs.slice(1).map((input, i) => (i === 0 ? { ...input, sha256: 'b'.repeat(64) } : input)),
        { file: 'photos/new.png', sha256, bytes: 9 },
      ],
      program: { ...first.program, version: '9.9.9' },
      limits: first.limits.map((limit) =>
        limit.key === 'lateRisePct' ? { ...limit, value: 25, changed: true } : limit,
      ),
      cylinders: first.cylinders.map((c, i) => (i === 0 ? { ...c, verdict: 'borderline' as const } : c)),
      repair: { ...first.repair, verdict: 'no change' },
    }
    expect(keys(revised(texts, now, { result: first, sha256 })).toSorted()).toEqual([
      'revision.input-added',
      'revision.input-changed',
      'revision.input-removed',
      'revision.limit',
      'revision.program',
      'revision.repair',
      'revision.verdict',
    ])
  })

  test('one that is signed says that what it replaces does not bear the same signature', () => {
    const second = revised(texts, first, { result: first, sha256, notSigned: true })
    expect(keys(second)).toEqual(['revision.nothing', 'revision.not-signed'])
  })

  test('leaves both results as they were', () => {
    const before = JSON.stringify(first)
    revised(texts, first, { result: first, sha256 })
    expect(JSON.stringify(first)).toBe(before)
  })
})
