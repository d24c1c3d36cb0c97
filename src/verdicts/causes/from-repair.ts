import type { Limits } from '../../limits/limits.ts'
import { factsOf, type SourcedFact } from '../../test-log/facts.ts'
import type { TestFinding } from '../../test-log/findings.ts'
import type { RepairVerdict } from '../verdict-names.ts'
import { trimsRecovered } from './from-trims.ts'
import { observe, type Observation } from './observation.ts'

/** What the captures say of the repair, and whether any cylinder was out of order before: else there was nothing to mend in them. */
export interface RepairPicture {
  verdict: RepairVerdict
  wasOdd: boolean
}

/**
 * Observations from repairs. Captures taken after one decide; the technician's word counts only where they cannot, and
 * little. All places repaired share what followed: it does not tell which of them it was.
 */
export function fromRepair(
  tests: readonly TestFinding[],
  facts: readonly SourcedFact[],
  it: { repair: RepairPicture; limits: Limits },
): Observation[] {
  const repairs = factsOf(facts, 'repair')
  const failed = repairs.filter((r) => r.outcome === 'not fixed')
  const others = repairs.filter((r) => r.outcome !== 'not fixed')
  const about = (
    kind: string,
    of: readonly SourcedFact<'repair'>[],
    more: { sure: boolean; tests?: readonly number[] },
  ): Observation[] => {
    const places = [...new Set(of.map((r) => r.place))].sort()
    return places.length === 0
      ? []
      : [
          observe(kind, {
            at: { kind: 'places', places },
            args: { place: places.join('; ') },
            sure: more.sure,
            tests: [...of.flatMap((r) => r.tests), ...(more.tests ?? [])],
          }),
        ]
  }
  const after = trimsRecovered(tests, it.limits)
  const seen = captureKind(it.repair)
  const clear = factsOf(facts, 'codes-none').flatMap((f) => (f.stage === 'after' ? f.tests : []))
  return [
    ...(seen
      ? about(seen, others, { sure: true })
      : about(
          'repair-word-fixed',
          others.filter((r) => r.outcome === 'fixed'),
          { sure: false },
        )),
    ...about('repair-word-not-fixed', failed, { sure: false }),
    ...(clear.length ? about('repair-codes-clear', others, { sure: false, tests: clear }) : []),
    ...(after.recovered ? about('repair-trims-recovered', others, { sure: true, tests: after.tests }) : []),
  ]
}

function captureKind({ verdict, wasOdd }: RepairPicture): string | undefined {
  if (!wasOdd) return undefined
  switch (verdict) {
    case 'repair confirmed':
      return 'repair-confirmed'
    case 'improved, not in order':
      return 'repair-improved'
    case 'no change':
    case 'worse':
      return 'repair-without-effect'
    case 'not checked':
      return undefined
  }
}
