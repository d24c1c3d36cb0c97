import type { JobFinding } from '../finding.ts'
import type { Seen } from '../seen.ts'
import type { Direction, FindingKind } from '../words.ts'

/** One kind of finding: all that the conclusion knows of it. Its sentences: say-finding.ts. */
export interface FindingReader {
  kind: FindingKind
  /** `captures` or `log`: the side that shows it. */
  side: 'captures' | 'log'
  /** What it makes of the engine where it is out of order: a fault, or only a suspicion. */
  makes: 'fault' | 'suspected'
  /** A new one after the work: a worsening, or only a reason not to call the work confirmed. */
  newAfter: 'worse' | 'opposes'
  /** Which ways it can lie, other than in order. */
  directions: readonly Direction[]
  read(seen: Seen): JobFinding[]
}
