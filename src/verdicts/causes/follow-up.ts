import type { RepairVerdict } from '../verdict-names.ts'
import type { Candidate } from './candidates.ts'
import type { CausesTable } from './schema.ts'
import type { Standing } from './standing.ts'

/** What comes next without weighing causes: a cause stands clear, or a repair waits to be shown. */
export interface FollowUp {
  id: string
  target: Candidate | undefined
  minutes: number
  cautions: readonly string[]
  outcomes: readonly string[]
}

/** Nothing is left to do where a repair is confirmed by captures and the standing is clear; else undefined to choose a test. */
export type Proposed = FollowUp | 'nothing left' | undefined

/** What follows where two faults stand and no test would tell more of the second. */
export const repairBoth = ({ firsts }: Standing, table: CausesTable): FollowUp => ({
  id: 'repair-both',
  target: firsts[0],
  ...table.follow_ups['repair-both']!,
})

/**
 * The step that good practice asks for before any test between causes: captures after a repair that has none; after a
 * confirmed one, nothing where the cause stands clear; for a cause that stands clear and is not repaired, its own
 * follow-up, or the repair and captures after it; where nothing could be judged from captures, captures that can be;
 * where nothing listed fits, captures while the complaint shows.
 */
export function followUp(
  standing: Standing,
  about: { repair: RepairVerdict; repaired: boolean; judged: boolean; table: CausesTable },
): Proposed {
  const { repair, repaired, judged, table } = about
  const named = (id: string, target?: Candidate): FollowUp => ({ id, target, ...table.follow_ups[id]! })
  if (repair === 'repair confirmed')
    return standing.kind === 'clear' || standing.kind === 'nothing' ? 'nothing left' : undefined
  if (repaired && repair === 'not checked') return named('capture-after')
  if (standing.kind === 'clear')
    return named(table.causes[standing.firsts[0]!.id]!.follow_up ?? 'repair-and-capture', standing.firsts[0])
  if (!judged) return named('capture-before')
  return standing.kind === 'not-listed' ? named('capture-when-it-shows') : undefined
}
