import { readPlace } from '../verdicts/causes/place-words.ts'
import type { WeighedCauses } from '../verdicts/causes/weigh-causes.ts'
import type { Fault, RepairConclusion, Stated } from './conclusion.ts'
import type { StatedStand } from './words.ts'

interface StatedInput {
  weighed: WeighedCauses
  faults: readonly Fault[]
  repair: Pick<RepairConclusion, 'verdict'>
  cause: string | undefined
  correction: string | undefined
}

/** The technician's own cause and correction, held against what the evidence says. */
export function statedOf(input: StatedInput): Stated[] {
  const { cause, correction } = input
  return [
    ...(cause === undefined ? [] : [{ what: 'cause' as const, words: cause, stand: standOf(input, cause) }]),
    ...(correction === undefined
      ? []
      : [{ what: 'correction' as const, words: correction, stand: standOf(input, correction) }]),
  ]
}

/**
 * Agrees where the words name a fault found, and the work was not without effect; contradicted where the part they name
 * was worked on without effect, or another cause stands clear; else not tested.
 */
function standOf({ weighed, faults, repair }: StatedInput, words: string): StatedStand {
  const { context } = weighed
  const among = Object.keys(context.table.causes).filter((id) => id !== 'other' && id !== 'leak-at-place')
  const meant = readPlace(words, { ...context, among })
  const same = faults.filter((f) => meant.causes.includes(f.cause) && seatFits(f, meant))
  const failed = repair.verdict === 'no change' || repair.verdict === 'worse'
  if (same.length > 0) return failed && repair.verdict === 'no change' ? 'contradicted' : 'agrees'
  if (meant.causes.length === 0) return 'not tested'
  const other = faults.some((f) => f.standing === 'clear' || f.standing === 'leading')
  return repair.verdict === 'no change' || other ? 'contradicted' : 'not tested'
}

const seatFits = (
  { cylinders }: Fault,
  meant: { cylinder: number | undefined; bank: string | undefined },
): boolean => meant.cylinder === undefined || cylinders.length === 0 || cylinders.includes(meant.cylinder)
