import type { EvidenceKind } from '../../limits/keys.ts'
import { ownWords, listOf } from '../../texts/messages.ts'
import type { Limits } from '../../limits/limits.ts'
import { factsOf, type SourcedFact } from '../../test-log/facts.ts'
import type { TestFinding } from '../../test-log/findings.ts'
import type { RepairVerdict } from '../verdict-names.ts'
import { trimsRecovered } from './from-trims.ts'
import { observe, type Observation } from './observation.ts'

/** The repair as judged from everything recorded after it, and what that judgement rests on. */
export interface RepairPicture {
  verdict: RepairVerdict
  restsOn: 'captures' | 'log' | 'nothing'
  /** Whether captures after the work show every cylinder in order already, so that others would tell nothing new. */
  levelAfter?: boolean
  /** Whether something found before, which the work did not touch, was not read again. */
  leftUnread?: boolean
  /** Whether anything read after the work is out of order. */
  openAfter?: boolean
  /** Whether all that was looked at is in order, and nothing was done. */
  nothingWrong?: boolean
}

/**
 * Observations from repairs. Captures taken after one decide; the technician's word counts only where they cannot, and
 * little. All places repaired share what followed: it does not tell which of them it was.
 */
export function fromRepair(
  tests: readonly TestFinding[],
  facts: readonly SourcedFact[],
  it: { repair: RepairPicture; wasOdd: boolean; limits: Limits },
): Observation[] {
  const repairs = factsOf(facts, 'repair')
  const failed = repairs.filter((r) => r.outcome === 'not fixed')
  const others = repairs.filter((r) => r.outcome !== 'not fixed')
  const about = (
    kind: EvidenceKind,
    of: readonly SourcedFact<'repair'>[],
    more: { sure: boolean; tests?: readonly number[] },
  ): Observation[] => {
    const places = [...new Set(of.map((r) => r.place))].sort()
    return places.length === 0
      ? []
      : [
          observe(kind, {
            at: { kind: 'places', places },
            args: { place: listOf(places.map(ownWords), 'semicolon') },
            sure: more.sure,
            tests: [...of.flatMap((r) => r.tests), ...(more.tests ?? [])],
          }),
        ]
  }
  const after = trimsRecovered(tests, it.limits)
  const seen = repairKind(it.repair, it.wasOdd)
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

/** The kind of evidence a judged repair is; undefined where nothing was read that could show it. */
function repairKind({ verdict, restsOn }: RepairPicture, wasOdd: boolean): EvidenceKind | undefined {
  switch (verdict) {
    case 'repair confirmed':
      return restsOn === 'captures' ? 'repair-confirmed' : 'repair-confirmed-by-log'
    case 'improved, not in order':
      return 'repair-improved'
    case 'no change':
      return wasOdd || restsOn === 'log' ? 'repair-without-effect' : undefined
    // What is worse may be another fault than the one that was mended.
    case 'worse':
    case 'not checked':
      return undefined
  }
}

/** Of the car now: what was worked on is less likely to be what is wrong with it still. */
export function fromWork(facts: readonly SourcedFact[]): Observation[] {
  const places = [...new Set(factsOf(facts, 'repair').map((r) => r.place))].sort()
  return places.map((place) =>
    observe('work-done', {
      at: { kind: 'places', places: [place] },
      args: { place },
      sure: false,
      tests: factsOf(facts, 'repair').flatMap((r) => (r.place === place ? r.tests : [])),
    }),
  )
}
