import type { JobFinding } from '../finding.ts'
import type { Seen } from '../seen.ts'
import type { Direction, FindingKind } from '../words.ts'

/** What a kind of finding means for the check of a repair. */
export interface RepairMeaning {
  /** What shows that it is back: the same cylinder's own figure, or the same reading taken again. */
  back: 'cylinder figure' | 'reading'
  /** A new one after the work: a worsening, or only a reason not to call the work confirmed. */
  newAfter: 'worse' | 'opposes'
}

/** One kind of finding: all that the conclusion knows of it. Its sentences: say-finding.ts. */
export interface FindingReader {
  kind: FindingKind
  /** `captures` or `log`: the side that shows it. */
  side: 'captures' | 'log'
  /** What it makes of the engine where it is out of order: a fault, or only a suspicion. */
  makes: 'fault' | 'suspected'
  repair: RepairMeaning
  /** Which ways it can lie, other than in order. */
  directions: readonly Direction[]
  read(seen: Seen): JobFinding[]
}
