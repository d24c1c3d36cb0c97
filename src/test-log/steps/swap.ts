import type { EvidenceKind } from '../../limits/keys.ts'
import type { LogEntry } from '../entry.ts'
import { ownWords, sentence } from '../../texts/messages.ts'
import type { Fact } from '../fact.ts'
import type { TestFinding } from '../findings.ts'
import { outcomesOf, readOutcome, SWAPPED } from '../outcome-words.ts'
import { firstCylinderIn, placeWordsOf } from '../place/read-words.ts'
import { oneOf, type StepKind } from '../step-kind.ts'
import { recorded, type TestGroup } from '../test-group.ts'

const PARTS = ['coil', 'lead', 'plug', 'injector'] as const
type Part = (typeof PARTS)[number]

const EVIDENCE: Readonly<Record<Part, { followed: EvidenceKind; stayed: EvidenceKind }>> = {
  coil: { followed: 'swap-coil-followed', stayed: 'swap-coil-stayed' },
  lead: { followed: 'swap-lead-followed', stayed: 'swap-lead-stayed' },
  plug: { followed: 'swap-plug-followed', stayed: 'swap-plug-stayed' },
  injector: { followed: 'swap-injector-followed', stayed: 'swap-injector-stayed' },
}

/** The part that was changed over: as the reading says, else as the place does ("coil 3 to 1"). */
export function swappedPart({ reading, place = '' }: Pick<LogEntry, 'reading' | 'place'>): Part | undefined {
  const named = PARTS.find((p) => p === reading)
  if (named) return named
  const words = placeWordsOf(place)
  // a plug lead is a lead: the plug comes last
  return (['lead', 'coil', 'injector', 'plug'] as const).find((p) => words.includes(p))
}

/**
 * A part changed over with that of another cylinder: a fault that goes with it is the part's; one that stays is not.
 *
 * @source shop-practice
 */
function readSwap(group: TestGroup): TestFinding {
  const base = recorded(group)
  const [row] = group
  const answer = readOutcome(base.outcome, SWAPPED)
  const part = swappedPart(row)
  const cylinder = firstCylinderIn(row.place ?? '')
  const place = ownWords(row.place ?? '')
  if (answer === undefined || part === undefined)
    return { ...base, says: [sentence('tests.swap.recorded', { place })] }
  const followed = answer === 'followed'
  const fact: Fact = {
    kind: 'part',
    evidence: EVIDENCE[part][answer],
    cylinders: cylinder === undefined ? [] : [cylinder],
    place: base.place,
    fine: !followed,
    stage: base.stage,
    sure: true,
  }
  return {
    ...base,
    observed: true,
    finding: followed ? 'response' : 'no response',
    facts: [fact],
    says: [sentence(followed ? 'tests.swap.followed' : 'tests.swap.stayed', { place })],
  }
}

export const swap: StepKind = {
  title: 'report.step.swap',
  needs: { place: true },
  readings: oneOf(PARTS, () => []),
  outcome: outcomesOf(SWAPPED, ['follows', 'stays']),
  evidence: Object.values(EVIDENCE).flatMap(({ followed, stayed }) => [followed, stayed]),
  cautions: ['high-voltage', 'hot'],
  findings: { response: 'report.finding.swap-response', 'no response': 'report.finding.swap-no-response' },
  read: readSwap,
}
