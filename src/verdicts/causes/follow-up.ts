import type { FollowUpId } from '../../limits/keys.ts'
import type { WordKey } from '../../texts/messages.ts'
import type { RepairVerdict } from '../verdict-names.ts'
import type { Candidate } from './candidates.ts'
import type { CausesTable } from './schema.ts'
import type { Standing } from './standing.ts'
import { FOLLOW_UP_WORDS } from './test-words.ts'

/** What comes next without weighing causes: a cause stands first, or a repair waits to be shown. */
export interface FollowUp {
  id: string
  target: Candidate | undefined
  minutes: number
  cautions: readonly string[]
  outcomes: readonly string[]
  /** What its reason says. */
  why: WordKey
}

/** Nothing is left to do where a repair is confirmed and nothing else is open; else undefined to choose a test. */
export type Proposed = FollowUp | 'nothing left' | undefined

const named = (table: CausesTable, id: FollowUpId, target?: Candidate): FollowUp => {
  const { minutes, cautions, outcomes } = table.follow_ups[id]!
  return { id, target, minutes, cautions, outcomes, why: FOLLOW_UP_WORDS[id].why }
}

/** What follows where two faults stand and no test would tell more of the second. */
export const repairBoth = ({ firsts }: Standing, table: CausesTable): FollowUp =>
  named(table, 'repair-both', firsts[0])

/** What follows where no test left would change which cause comes first, and that cause was not worked on yet. */
export const repairFirst = ({ firsts }: Standing, table: CausesTable): FollowUp => ({
  ...named(table, 'repair-and-capture', firsts[0]),
  why: 'next-test.repair-and-capture.why-likeliest',
})

/** What follows work that left something out of order where no test would change which cause comes first: the work itself is looked at. */
export const checkWork = ({ firsts }: Standing, table: CausesTable): FollowUp =>
  named(table, 'check-work', firsts[0])

/** What follows where a part leads by patterns, its own test speaks against it, and no test of the list would change that it leads. */
export const testAgain = ({ firsts }: Standing, table: CausesTable): FollowUp =>
  named(table, 'test-again', firsts[0])

export interface StateNow {
  /** Of the car as it stands now. */
  standing: Standing
  repair: RepairVerdict
  repaired: boolean
  /** Whether something read after the work is out of order. */
  wrongNow: boolean
  /** Whether captures as found show something out of order: there is something to test, whatever is behind it. */
  odd: boolean
  /** Whether captures as found could be judged. */
  judged: boolean
  /** Whether a follow-up's step is in the log, at its cause. */
  isDone: (followUp: string, target: Candidate | undefined) => boolean
  /** Whether a place answered to a test for leaks that was not worked on. */
  answered: boolean
  /** Whether captures after the work show every cylinder in order already. */
  levelAfter: boolean
  /** Whether anything read after the work is out of order. */
  openAfter: boolean
  /** Whether something the work did not touch was found before and not read again. */
  leftUnread: boolean
  /** Whether all that was looked at is in order, and nothing was done. */
  nothingWrong: boolean
  /** Whether a reading measured the first cause itself. */
  measured: boolean
  /** Whether a cause was worked on already. */
  isWorkedOn: (cause: Candidate) => boolean
  table: CausesTable
}

/**
 * The step that good practice asks for before any test between causes: nothing where nothing is wrong, nor after a repair
 * that is shown to have worked, and left nothing untouched; captures after one of which nothing was recorded; for a cause that stands clear and
 * was not worked on, its own follow-up, or the repair and captures after it; for one that a reading measured and that
 * leads, its own follow-up; where nothing could be judged from captures, captures that can be;
 * where nothing listed fits, captures while the complaint shows.
 */
export function followUp(now: StateNow): Proposed {
  const { standing, repair, repaired, wrongNow, judged, table } = now
  if (now.nothingWrong) return 'nothing left'
  if (repair === 'repair confirmed') return standing.beside && now.leftUnread ? undefined : 'nothing left'
  if (repaired && repair === 'not checked' && !wrongNow && !now.levelAfter)
    return named(table, 'capture-after')
  // all that was read is back, and the technician says it is not mended: it has to be caught
  if (repaired && repair === 'improved, not in order' && !wrongNow && !now.openAfter) return catchIt(table)
  const first = standing.firsts[0]!
  if (standing.kind === 'clear' && !now.isWorkedOn(first)) {
    const own = table.causes[first.id]!.follow_up as FollowUpId | undefined
    return named(table, own !== undefined && !now.isDone(own, first) ? own : 'repair-and-capture', first)
  }
  if (now.measured && canRepairFirst(now)) {
    const own = table.causes[first.id]!.follow_up as FollowUpId | undefined
    if (own !== undefined && !now.isDone(own, first)) return named(table, own, first)
  }
  if (!judged && !repaired) return named(table, 'capture-before')
  return standing.kind === 'not-listed' && !wrongNow && !now.answered && !now.odd ? catchIt(table) : undefined
}

/** What follows where nothing listed fits, and no test would tell more. */
export const catchIt = (table: CausesTable): FollowUp => named(table, 'capture-when-it-shows')

/** Whether a repair at the likeliest cause can be named: it leads, is a listed one, and was not worked on. */
export const canRepairFirst = ({
  standing,
  isWorkedOn,
}: Pick<StateNow, 'standing' | 'isWorkedOn'>): boolean =>
  LEADS.has(standing.kind) && standing.firsts[0]!.id !== 'other' && !isWorkedOn(standing.firsts[0]!)

const LEADS: ReadonlySet<Standing['kind']> = new Set([
  'clear',
  'leading-short',
  'leading-on-patterns',
  'leading-on-one',
  'leading-disputed',
  'leading-on-weights',
])
