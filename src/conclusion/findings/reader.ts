import type { FigureName } from '../../metrics/figures.ts'
import type { TextKey } from '../../texts/messages.ts'
import type { JobFinding } from '../finding.ts'
import type { Seen } from '../seen.ts'
import type { Direction, FindingKind } from '../words.ts'
import type { Saying } from './saying.ts'

/** One kind of finding: all that the conclusion knows of it, its sentences among it. */
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
  /**
   * `names`: it says by itself what is wrong; `beside`: so too, but on a cylinder that bears a verdict it is a sign of what
   * that says; `sign`: it speaks where nothing that names is found.
   */
  role: 'names' | 'beside' | 'sign'
  /** Whether it is read cylinder by cylinder, so that two of one state may both stand; else the last reading does. */
  byCylinder: boolean
  /** The figure whose shift over the repair shows it gone, where captures do and no verdict of its own tells. */
  shift: FigureName | undefined
  read(seen: Seen): JobFinding[]
  /** In a few words, for the headline. */
  short: Saying
  /** In plain words, for page one. */
  plain: Saying
  /** The figure it rests on; undefined where its plain words hold it already, or it has none. */
  figure(finding: JobFinding): TextKey | undefined
  /** That it was not read again after the work. */
  again: TextKey
}
