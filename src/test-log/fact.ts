import type { EvidenceKind } from '../limits/keys.ts'
/**
 * What a test says, in a form that causes can be weighed with: no sentences, no judgement of causes.
 * A fact is about one stage; `sure` is false where the finding rests on eye or ear, or its interval reaches the limit.
 */
export type Fact = { stage: 'before' | 'after'; sure: boolean } & (
  | { kind: 'spray-response'; place: string; changeRpm: number | undefined; capped: readonly string[] }
  | { kind: 'spray-silent'; place: string; capped: readonly string[] }
  /** The place still responds with these capped (itself), or no longer does (through one of them). */
  | {
      kind: 'isolation'
      place: string
      capped: readonly string[]
      drawsAir: 'itself' | 'through the capped path'
    }
  /** Capping the place changed the speed or ended the fault, or did not. */
  | { kind: 'cap'; place: string; changed: boolean }
  | { kind: 'smoke'; place: string; leak: boolean }
  /** Named in a test or repair and never sprayed or smoked. */
  | { kind: 'untested'; place: string }
  | { kind: 'trim-pattern'; pattern: TrimPattern; banks: 'all' | 'one'; bank: number | undefined }
  | { kind: 'lambda'; side: 'lean' | 'rich' | 'in order'; condition: string | undefined }
  /** Gas readings that do not belong together, or air that may have come in after the engine. */
  | { kind: 'gas-doubt'; why: 'readings do not fit' | 'air after the engine' }
  /** Lambda against fuel trims of the same condition. */
  | { kind: 'lambda-trims'; together: 'both lean' | 'compensated' | 'gas lean, trims in order' | 'opposed' }
  | {
      kind: 'unmetered-air'
      airGps: number
      holeMm: number | undefined
      at2500: 'agrees' | 'disagrees' | 'not checked'
    }
  | {
      kind: 'fuel-pressure'
      reading: 'key-on' | 'idle' | 'hold'
      state: 'low' | 'high' | 'in order' | 'falls'
    }
  | { kind: 'vacuum'; state: 'low' | 'high' | 'in order' }
  | { kind: 'compression'; cylinder: number; state: 'low' | 'in order' | 'high' }
  | { kind: 'code'; code: string; about: CodeSubject; bank: number | undefined; cylinder: number | undefined }
  /** Codes were read and none was stored. */
  | { kind: 'codes-none' }
  /** A test of a part, with the kind of evidence (templates/causes.yaml) it weighs as and the cylinders or bank it names. */
  | {
      kind: 'part'
      evidence: EvidenceKind
      cylinders: readonly number[]
      bank?: number
      place: string | undefined
      fine: boolean
    }
  | { kind: 'repair'; place: string; outcome: 'fixed' | 'not fixed' | undefined }
  /** Two tests that cannot both be right; `methods`: two ways of looking at one place that disagree, as they may. */
  | {
      kind: 'contradiction'
      step: 'spray' | 'isolation' | 'cap' | 'smoke' | 'compression' | 'methods'
      place: string
    }
)
export type FactKind = Fact['kind']

export type TrimPattern = 'falls with speed' | 'rises with load' | 'lean throughout' | 'rich' | 'in order'

/** What a generic trouble code is about, as far as it bears on mixture and ignition. */
export type CodeSubject =
  | 'lean'
  | 'rich'
  | 'misfire'
  | 'air meter'
  | 'manifold pressure'
  | 'oxygen sensor'
  | 'coolant sensor'
  | 'injector'
  | 'ignition'
  | 'exhaust recirculation'
  | 'purge'
  | 'fuel pressure'
  | 'catalyst'
  | 'idle control'
  | 'valve timing'
  | 'other'
  | 'maker'
