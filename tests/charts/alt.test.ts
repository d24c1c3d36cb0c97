import { describe, expect, test } from 'vitest'
import { plansOf, sprays } from './chart-jobs.ts'
import type { SmallJob } from './small-result.ts'

const alt = (id: string, small: SmallJob = {}, count = 3) =>
  plansOf({ small, drawn: { sprays: sprays(count) } })
    .find((p) => p.id === id)!
    .alt.replaceAll('\u00a0', ' ')

/** small-result.ts: late rise in % as given, else ((7 n) mod 5) - 2; in kV that times 0.0132; firing voltage 8.2 + 0.7 (n mod 3) kV. */
describe('descriptions say the figures of their own chart', () => {
  test('one cylinder stands out: its rise and how far the others keep level', () => {
    expect(alt('spark-lines-before-idle-warm')).toContain(
      'Cylinder 5 rises by 1.11 kV; the others stay within 0.03 kV.',
    )
    expect(alt('spark-lines-before-idle-warm', { risesPct: { 5: 50, 2: 8 } })).toContain(
      'Cylinder 5 rises by 0.66 kV; the others stay within 0.11 kV.',
    )
  })

  test('several stand out, both ways, and one has no figure', () => {
    const small: SmallJob = {
      verdicts: { 1: 'lean', 3: 'lean', 4: 'rich', 6: 'not judged' },
      risesPct: { 1: 40, 3: 52, 4: -31 },
      absent: [6],
    }
    expect(alt('late-rise-before-idle-warm', small)).toContain(
      'the limits are ±20 % of the middle level. Cylinders 1 and 3 rise by 40.0 % to 52.0 % and cylinder 4 falls by 31.0 %; the others stay within 2.0 %; there is no figure for cylinder 6. Verdicts other than “mixture in order”: cylinder 1 lean; cylinder 3 lean; cylinder 4 rich; cylinder 6 not judged.',
    )
  })

  test('none stands out', () => {
    expect(alt('late-rise-after-idle-warm')).toMatch(
      /All cylinders stay within 2\.0 %\. Every verdict is “mixture in order”\.$/,
    )
  })

  test('all stand out: no sentence about others', () => {
    const small: SmallJob = {
      cylinders: 4,
      verdicts: { 1: 'lean', 2: 'lean', 3: 'lean', 4: 'lean' },
      risesPct: { 1: 40, 2: 45, 3: 50, 4: 44 },
    }
    expect(alt('late-rise-before-idle-warm', small)).toMatch(
      /Cylinders 1, 2, 3 and 4 rise by 40\.0 % to 50\.0 %\. Verdicts/,
    )
  })

  test('firing voltage: lowest and highest with their cylinders', () => {
    expect(alt('firing-voltage-before-idle-warm')).toMatch(
      /between 8\.2 kV at cylinder 3 and 9\.6 kV at cylinder 5\.$/,
    )
    expect(alt('firing-voltage-before-idle-warm', { absent: [1, 2, 3, 4, 5, 6] })).toContain(
      'No cylinder has a figure.',
    )
  })

  test('before and after: each stage with its own figures', () => {
    expect(alt('before-after-late-rise-idle-warm')).toContain(
      'Before: Cylinder 5 rises by 84.0 %; the others stay within 2.0 %. After: All cylinders stay within 2.0 %.',
    )
  })

  test('speed: every place with its finding', () => {
    const words = alt('speed-trace-1', {}, 3)
    expect(words).toContain('sprays marked (3)')
    expect(words).toMatch(
      /No response at “joint between .*”; response at “brake servo hose”; unclear at “Dichtung .*”\.$/,
    )
  })

  test('the customer: plain words for what the line does, both times', () => {
    expect(alt('customer')).toBe(
      'The line of the spark’s voltage in cylinder 5, against the band of a healthy line. Before the work: The line climbs at its end: too much air for the fuel. After the work: The line stays level: the mixture is right.',
    )
  })

  test('the customer: a line at the limit is the one pointed out', () => {
    const words = alt('customer', { verdicts: { 2: 'borderline' }, risesPct: { 2: 22 }, stages: ['before'] })
    expect(words).toContain('in cylinder 2, against the band')
    expect(words).toContain('The line is too near the limit to say.')
  })
})
