import { ranked, type Ledger, type LedgerContext } from './ledger.ts'
import { isOnPart } from './on-part.ts'

type Entry = Ledger['entries'][number]

/** Share below which a cause that its own part speaks against counts as ruled out, as far as this evidence goes. */
const RULED_OUT_SHARE = 0.02
/** Evidence must make a cause at least so many times less likely to rule it out. */
const RULING_FACTOR = 2

/** A cause with next to no share left, and what was found on its very part, most telling first. */
export interface RuledOut {
  id: string
  share: number
  by: readonly { entry: Entry; push: number }[]
}

/**
 * Causes that a finding on the very part or system speaks against, at every place they can sit. What another fault, if it
 * is there, makes unlikely is not ruled out by that: the other fault is assumed, and two can be there at once.
 *
 * @param but  a cause that stands beside the first and is not to be listed
 */
export function ruledOut(ledger: Ledger, context: LedgerContext, but: string | undefined): RuledOut[] {
  const order = ranked(ledger)
  const ids = [...new Set(order.map((o) => o.candidate.id))].filter((id) => id !== 'other' && id !== but)
  return ids.flatMap((id) => {
    const seats = order.filter((o) => o.candidate.id === id)
    const share = seats.reduce((sum, s) => sum + s.share, 0)
    if (share > RULED_OUT_SHARE) return []
    const against = seats.map(({ candidate, index }) =>
      ledger.entries
        .map((entry) => ({ entry, push: entry.push[index]! }))
        .filter(({ entry, push }) => push <= -Math.log(RULING_FACTOR) && isOnPart(entry, candidate, context))
        .sort((a, b) => a.push - b.push),
    )
    return against.every((of) => of.length > 0) ? [{ id, share, by: against[0]! }] : []
  })
}
