import type { EvidenceKind } from '../../limits/keys.ts'
import type { Says } from '../../test-log/findings.ts'

/** Where on the engine an observation points. */
export type Pointing =
  | { kind: 'engine' }
  | { kind: 'cylinders'; cylinders: readonly number[] }
  | { kind: 'bank'; bank: string }
  /** In the technician's words; several where one finding bears on several (all that was repaired). */
  | { kind: 'places'; places: readonly string[] }

/** One thing seen, ready to be weighed: its kind is a key of the table's evidence. */
export interface Observation {
  kind: EvidenceKind
  at: Pointing
  /** False where it rests on eye or ear, or its interval reaches the limit. */
  sure: boolean
  /** Tests that say opposite things of it: shown, and not weighed. */
  contradicted: boolean
  /** Another way of looking at the same place says the opposite: weighed, but nothing resting on it is called clear. */
  disputed: boolean
  /** Arguments of its sentence, `evidence.<kind>`. */
  args: Says['args']
  /** Tests it rests on (indices into the list of tests); empty for captures. */
  tests: readonly number[]
}

const onEngine: Pointing = { kind: 'engine' }

/** An observation of the whole engine unless told otherwise, sure, resting on no test of the log. */
export const observe = (kind: EvidenceKind, more: Partial<Omit<Observation, 'kind'>> = {}): Observation => ({
  kind,
  at: onEngine,
  sure: true,
  contradicted: false,
  disputed: false,
  args: {},
  tests: [],
  ...more,
})

/** A key that is the same for the same observation, whatever the order things were noted in. */
export const observationKey = ({ kind, at, args }: Observation): string => JSON.stringify([kind, at, args])
