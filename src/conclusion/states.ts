import type { JobFinding, NamedFinding } from './finding.ts'
import { FINDINGS } from './findings/index.ts'
import type { EngineState } from './conclusion.ts'
import type { FindingState } from './words.ts'

/** Whether a finding leaves something open: out of order, or not sure to be in order. */
export const isOpen = ({ order }: JobFinding): boolean => order === 'out of order' || order === 'unsure'

/** Out of order for certain, in a kind that is a fault by itself. */
const isFault = (f: JobFinding): boolean =>
  f.order === 'out of order' && f.sure !== 'leaning' && FINDINGS[f.kind].makes === 'fault'

/**
 * The class of the engine in one state, the first that applies: a fault, a suspicion, not known (a cylinder was not
 * judged, or nothing was captured), in order. Could not be judged is never in order.
 *
 * @param cylinders  of the engine
 */
export function stateOf(
  state: FindingState,
  findings: readonly NamedFinding[],
  cylinders: readonly number[],
): Pick<EngineState, 'class' | 'findings'> {
  const here = findings.filter((f) => f.state === state)
  const faults = here.filter(isFault)
  if (faults.length) return { class: 'fault', findings: ids(faults) }
  const open = here.filter(isOpen)
  if (open.length) return { class: 'suspected', findings: ids(open) }
  const level = here.filter((f) => f.kind === 'mixture' && f.order === 'in order')
  const judged = new Set(level.flatMap((f) => f.where.cylinders))
  if (cylinders.some((c) => !judged.has(c)))
    return { class: 'not known', findings: ids(here.filter((f) => f.order === 'not known')) }
  return { class: 'in order', findings: ids(here.filter((f) => f.order === 'in order')) }
}

const ids = (findings: readonly NamedFinding[]): string[] => findings.map((f) => f.id)
