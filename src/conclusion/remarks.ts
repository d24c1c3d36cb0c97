import { sentence } from '../texts/messages.ts'
import { limit } from '../limits/limits.ts'
import type { Says, TestFinding } from '../test-log/findings.ts'
import { trimOf } from '../test-log/steps/trim.ts'
import { rowsOf } from './findings/log-rows.ts'
import type { Seen } from './seen.ts'

/** What limits what may be said of the state after the work: something taken too early, a cold engine, trims not yet relearned. */
export function remarksOf(seen: Seen, it: { tooEarly: readonly string[]; coldAfter: boolean }): Says[] {
  const early = [
    ...it.tooEarly,
    ...[...seen.tooEarly].flatMap(
      (i) => `${seen.tests[i]!.step} ${seen.tests[i]!.at.slice(0, 16).replace('T', ' ')}`,
    ),
  ]
  return [
    ...(early.length ? [sentence('page.remark.too-early', { what: early.join(', ') })] : []),
    ...(it.coldAfter ? [sentence('page.remark.cold-after')] : []),
    ...relearning(seen),
  ]
}

/**
 * Long-term trim after the work. Beyond the limit while the total is within it: the control has not yet unlearned what
 * the fault taught it. Read without the short-term trim it may still be that of before.
 */
function relearning(seen: Seen): Says[] {
  const edge = limit(seen.limits, 'trimHighPct')
  const after = rowsOf(seen, 'trim').filter((row) => row.state === 'after')
  const banks = after.flatMap(({ test }) =>
    trimOf(test).map(({ bank, total }) => ({
      total: total.value,
      long: valueOf(test, `LTFT${bank}`),
      short: valueOf(test, `STFT${bank}`),
    })),
  )
  const taught = banks.some(
    (b) =>
      b.long !== undefined && b.short !== undefined && Math.abs(b.long) > edge && Math.abs(b.total) <= edge,
  )
  const alone = banks.some((b) => b.short === undefined && b.long !== undefined && Math.abs(b.long) > edge)
  return [
    ...(taught ? [sentence('page.remark.not-relearned')] : []),
    ...(alone ? [sentence('page.remark.long-alone')] : []),
  ]
}

const valueOf = (test: TestFinding, reading: string): number | undefined =>
  test.readings.findLast((r) => r.reading === reading)?.value
