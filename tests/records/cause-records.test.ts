import { describe, expect, test } from 'vitest'
import { causeRecords } from '../../src/records/parts/cause-records.ts'
import { ledgerRecord } from '../../src/records/parts/ledger-record.ts'
import { nextTestRecord } from '../../src/records/parts/next-test-record.ts'
import { resultSchema } from '../../src/records/result.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { CASES } from '../verdicts/causes/cases.ts'
import { limits, weighCase } from '../verdicts/causes/case.ts'

const texts = loadTexts('en')

describe.each(CASES.map((c) => [c.name, c] as const))('%s', (_, worked) => {
  const weighed = weighCase(worked)
  const causes = causeRecords(texts, weighed, 'C1')
  const ledger = ledgerRecord(texts, weighed, limits)
  const next = nextTestRecord(texts, weighed, undefined)

  test('is said whole, by the schema', () => {
    resultSchema.shape.causes.parse(causes)
    resultSchema.shape.ledger.parse(ledger)
    resultSchema.shape.next_test.parse(next)
  })

  test('shares fall from first to last, name what is not listed, and with the rest make one', () => {
    const shares = causes.map((c) => c.probability)
    expect(causes.some((c) => c.id === 'other')).toBe(true)
    expect([...shares].sort((a, b) => b - a)).toEqual(shares)
    expect(shares.reduce((sum, p) => sum + p, 0) + ledger.rest_probability).toBeCloseTo(1, 2)
  })

  test('every entry has one factor a cause, and rests on tests of the log', () => {
    for (const entry of ledger.entries) {
      expect(entry.factors).toHaveLength(causes.length)
      expect(entry.tests.every((t) => t >= 0 && t < worked.log.length)).toBe(true)
    }
  })

  test('no cause that is ruled out is ranked', () => {
    const ranked = new Set(causes.filter((c) => c.probability > 0.02).map((c) => c.id))
    expect(ledger.ruled_out.filter((r) => ranked.has(r.id))).toEqual([])
  })
})
