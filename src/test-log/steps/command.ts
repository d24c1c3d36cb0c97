import type { EvidenceKind } from '../../limits/keys.ts'
import { sentence } from '../../texts/messages.ts'
import type { WordKey } from '../../texts/messages.ts'
import type { Fact } from '../fact.ts'
import type { TestFinding } from '../findings.ts'
import { LEAK, COMMANDED, readOutcome } from '../outcome-words.ts'
import { oneOf, type StepKind } from '../step-kind.ts'
import { recorded, type TestGroup } from '../test-group.ts'

const PARTS = ['idle-valve', 'EGR', 'purge'] as const
type Part = (typeof PARTS)[number]
type State = 'passes' | 'shuts' | 'stuck' | 'moves'

const EVIDENCE: Readonly<Record<Part, Readonly<Record<State, EvidenceKind>>>> = {
  'idle-valve': {
    passes: 'idle-valve-stuck',
    shuts: 'idle-valve-moves',
    stuck: 'idle-valve-stuck',
    moves: 'idle-valve-moves',
  },
  EGR: { passes: 'egr-passes-shut', shuts: 'egr-shuts', stuck: 'egr-does-not-move', moves: 'egr-moves' },
  purge: {
    passes: 'purge-passes-shut',
    shuts: 'purge-shuts',
    stuck: 'purge-does-not-move',
    moves: 'purge-moves',
  },
}
const SAYS: Readonly<Record<State, WordKey>> = {
  passes: 'tests.command.passes',
  shuts: 'tests.command.shuts',
  stuck: 'tests.command.stuck',
  moves: 'tests.command.moves',
}

/** Whether the words speak of what passes while shut, rather than of the engine's answer. */
const OF_LEAK =
  /leak|passes|durchl|schlie|ferm|passe|pasa|cerrad|tight|seals|shuts|holds|open|leck|dicht|undicht|fuit|etanche|fuga|estanc|cierra|abiert/i

function stateOf(outcome: string | undefined): State | undefined {
  if (outcome === undefined) return undefined
  if (/stuck|sticks|h[aä]ngt|klemmt|bloqu|grippe|atascad/i.test(outcome))
    return /open|offen|ouvert|abiert/i.test(outcome) ? 'passes' : 'stuck'
  if (OF_LEAK.test(outcome)) {
    const leak = readOutcome(outcome, LEAK)
    return leak === undefined ? undefined : leak === 'yes' ? 'passes' : 'shuts'
  }
  const answer = readOutcome(outcome, COMMANDED)
  return answer === undefined ? undefined : answer === 'yes' ? 'moves' : 'stuck'
}

/**
 * A valve driven by hand or by the scan tool: whether the engine answers as it should, and whether it passes anything
 * while shut.
 *
 * @source shop-practice
 */
function readCommand(group: TestGroup): TestFinding {
  const base = recorded(group)
  const part = PARTS.find((p) => p === group[0].reading)
  const state = stateOf(base.outcome)
  if (part === undefined || state === undefined)
    return { ...base, says: [sentence('tests.command.recorded')] }
  const fine = state === 'shuts' || state === 'moves'
  const fact: Fact = {
    kind: 'part',
    evidence: EVIDENCE[part][state],
    cylinders: [],
    place: base.place,
    fine,
    stage: base.stage,
    sure: false,
  }
  return {
    ...base,
    observed: true,
    finding: fine ? 'in limits' : 'out of limits',
    facts: [fact],
    says: [sentence(SAYS[state])],
  }
}

export const command: StepKind = {
  title: 'report.step.command',
  needs: { reading: true },
  readings: oneOf(PARTS, () => ['%']),
  usual: [{ unit: '%', least: 0, most: 100 }],
  outcome: {
    reads: (words) => stateOf(words) !== undefined,
    words: ['response', 'no response', 'stuck open', 'shuts'],
    needed: true,
  },
  evidence: Object.values(EVIDENCE).flatMap((of) => Object.values(of)),
  cautions: ['moving', 'hot', 'exhaust'],
  read: readCommand,
}
