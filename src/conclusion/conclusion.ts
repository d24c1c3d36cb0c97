import type { Says } from '../test-log/findings.ts'
import type { RepairVerdict } from '../verdicts/verdict-names.ts'
import type { NamedFinding } from './finding.ts'
import type { EngineClass, FaultStatus, NextKind, RepairReason, StandingWord, StatedStand } from './words.ts'

/** The engine in one state, and the findings that make it so. */
export interface EngineState {
  class: EngineClass
  findings: readonly string[]
  /** Findings out of order as found of which nothing was read afterwards. */
  notReadAgain: readonly string[]
  /** In a few words each. */
  says: readonly Says[]
}

/** Another cause that the evidence leaves room for. */
interface OtherCause {
  cause: string
  place: string | undefined
  share: number
}

export interface Fault {
  /** G1, G2 ... */
  id: string
  /** Id of the table of causes; `other` where nothing listed fits. */
  cause: string
  /** `cylinder N`, `bank N`, or the technician's words. */
  place: string | undefined
  cylinders: readonly number[]
  standing: StandingWord
  /** Share of all causes, and the range it takes when weights and priors are off. */
  share: number
  shareRange: readonly [low: number, high: number]
  /** How often it keeps first place then, 0 to 1. */
  keepsFirst: number
  others: readonly OtherCause[]
  explains: readonly string[]
  against: readonly string[]
  status: FaultStatus
  /** How sure it is, in words with the figures above. */
  says: Says
}

export interface Stated {
  what: 'cause' | 'correction'
  words: string
  stand: StatedStand
}

export interface RepairConclusion {
  verdict: RepairVerdict
  why: RepairReason
  /** The same in words. */
  reason: Says
  /** What else limits what may be said: an after taken too early, an engine not yet warm, trims not yet relearned. */
  remarks: readonly Says[]
  /** Whether it rests on captures, on the log alone, or on nothing. */
  restsOn: 'captures' | 'log' | 'nothing'
  supports: readonly string[]
  opposes: readonly string[]
  notReadAgain: readonly string[]
  /** Cylinders still out of order, or newly so. */
  left: readonly number[]
}

export interface NextStep {
  kind: NextKind
  id: string | undefined
  place: string | undefined
  minutes: number | undefined
}

/** A part of the headline: what and where, why, whether mended. Parts are parted by semicolons when said. */
export interface HeadlinePart {
  part: 'found' | 'cause' | 'mended'
  says: Says
}

/** Page one for the customer, passage by passage, as sentences to be said. What was done stands in the job itself. */
export interface PageOne {
  /** What is wrong and where, why. */
  found: readonly Says[]
  /** How sure, with the figure that carries it. */
  sure: readonly Says[]
  /** Mended or not, first word Yes, Not shown yet, or No. */
  mended: readonly Says[]
  /** What was not looked at in this very job. */
  unchecked: readonly Says[]
  /** On driving, where a fault that stands open touches safety. */
  driving: readonly Says[]
  /** Where nothing comes next; a next step says itself. */
  next: readonly Says[]
}

/** What the job comes to: made once, read by everything that speaks. */
export interface Conclusion {
  findings: readonly NamedFinding[]
  asFound: EngineState
  now: EngineState
  faults: readonly Fault[]
  stated: readonly Stated[]
  repair: RepairConclusion
  next: NextStep
  headline: readonly HeadlinePart[]
  pageOne: PageOne
}
