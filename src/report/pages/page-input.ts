import type { ChartPlan } from '../../charts/chart-plan.ts'
import type { Result } from '../../records/result.ts'
import type { Texts } from '../../texts/messages.ts'
import type { Block } from '../blocks/block.ts'

/** What every section is made from. A section shows fields of the result; it computes none. */
export interface PageInput {
  result: Result
  texts: Texts
  charts: readonly ChartPlan[]
  photos: ReadonlyMap<string, Uint8Array>
  logo?: Uint8Array | undefined
  /** Length of the signature readers show, bytes, where the report will carry one. */
  slotBytes?: number | undefined
  /** Signs of the job's words that the typeface lacks. */
  missingSigns: readonly string[]
}

/** A chapter of the report. Without blocks it is left out. */
export interface Section {
  /** Heading, and bookmark. */
  title: string
  /** Name that links of the contents lead to. */
  anchor?: string
  level: 1 | 2
  /** Type of its running text; small unless said. */
  type?: 'fine' | 'small'
  /** Blocks before the heading: the letterhead of page one. */
  above?: readonly Block[]
  blocks: readonly Block[]
  /** The same in less and less room: the first that fits on one page is taken where the blocks above do not, else the last. */
  tighter?: readonly (readonly Block[])[]
  newPage?: boolean
}
