/** Words of the conclusion, as the records have them (fixed). The reader's words for them stand in templates/texts. */

/** What was found out of order or in order, whether captures or the log show it. */
export const findingKinds = [
  'mixture',
  'circuit',
  'misfire',
  'firing-voltage',
  'burn-time',
  'oscillation',
  'compression',
  'fuel-pressure',
  'trim',
  'gas',
  'vacuum',
  'leak',
  'code',
  'part',
  'idle-speed',
] as const
export type FindingKind = (typeof findingKinds)[number]

/** Which way a finding lies; `none` where it is in order or was not judged. */
export const directions = [
  'none',
  'lean',
  'rich',
  'falling',
  'low compression',
  'open',
  'resistance',
  'missing',
  'high',
  'low',
  'falls',
  'answers',
  'contradicts',
  'stored',
  'fails',
  'swings',
] as const
export type Direction = (typeof directions)[number]

export const findingStates = ['as found', 'after'] as const
export type FindingState = (typeof findingStates)[number]

/** `in order`, `out of order`, `unsure` (at a limit, or contradicted) and `not known` (it could not be judged). */
export const findingOrders = ['out of order', 'unsure', 'not known', 'in order'] as const
export type FindingOrder = (typeof findingOrders)[number]

/** How a finding is known: by a figure, by a figure that reaches its limit, by eye or ear, or not at all. */
export const certainties = ['measured', 'leaning', 'observed', 'not judged'] as const
export type Certainty = (typeof certainties)[number]

export const scopes = ['engine', 'bank', 'cylinders', 'place'] as const
export type Scope = (typeof scopes)[number]

/** The state of the engine: the first of these that applies. */
export const engineClasses = ['fault', 'suspected', 'not known', 'in order'] as const
export type EngineClass = (typeof engineClasses)[number]

/** What may be said of a cause. */
export const standingWords = ['clear', 'leading', 'one of several', 'open'] as const
export type StandingWord = (typeof standingWords)[number]

export const faultStatuses = ['open', 'worked on', 'shown mended', 'contradicted'] as const
export type FaultStatus = (typeof faultStatuses)[number]

/** What the evidence says of a cause or a correction the technician states. */
export const statedStands = ['agrees', 'not tested', 'contradicted'] as const
export type StatedStand = (typeof statedStands)[number]

export const nextKinds = ['none', 'test', 'work', 'capture'] as const
export type NextKind = (typeof nextKinds)[number]

/** Why a repair has the verdict it has. */
export const repairReasons = [
  'none',
  'nothing-after',
  'too-early',
  'not-comparable',
  'not-read-again',
  'captures-missing',
  'cylinder-not-judged',
  'confirmed',
  'confirmed-by-log',
  'opposed',
  'part-left',
  'uncovered',
  'no-change',
  'worse',
] as const
export type RepairReason = (typeof repairReasons)[number]
