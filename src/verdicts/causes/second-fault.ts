import { limit, type Limits } from '../../limits/limits.ts'
import { candidateKey, type Candidate } from './candidates.ts'
import { robustnessOf, type Robustness } from './robustness.ts'
import { ofEntries, ranked, type Ledger, type LedgerContext } from './ledger.ts'

/** A cause beside the first one, for evidence that the first does not explain. */
export interface SecondFault {
  cause: Candidate
  /** Its share among all causes by that evidence alone. */
  share: number
  /** Entry of the ledger that speaks most for it. */
  entry: number
  /** The ledger of that evidence alone, over the causes that entry speaks for and what is not listed: what a next test is chosen among. */
  ledger: Ledger
  /** How it fares by that evidence when weights and priors are off. */
  robustness: Robustness
}

/**
 * The ledger takes one fault to be behind everything; two at once make it drop what speaks for the weaker one, however
 * plain. So the evidence that does not follow from the first cause is weighed by itself: where it puts another cause
 * first with a share worth naming, and one entry alone speaks strongly for that cause, both are named.
 *
 * @param firsts  the first cause at all its places
 */
export function secondFault(
  ledger: Ledger,
  firsts: readonly Candidate[],
  { context, limits }: { context: LedgerContext; limits: Limits },
): SecondFault | undefined {
  const least = Math.log(limit(limits, 'secondFaultRatio'))
  const ids = new Set(firsts.map((c) => c.id))
  const seats = ledger.candidates.flatMap((c, i) =>
    firsts.some((f) => candidateKey(f) === candidateKey(c)) ? [i] : [],
  )
  const unexplained = ledger.entries.flatMap(({ push, power }, i) =>
    power > 0 && seats.every((s) => push[s]! <= 0) ? [i] : [],
  )
  // Priors by themselves speak of no second fault.
  if (unexplained.length === 0) return undefined
  const alone = ofEntries(ledger, unexplained, context)
  const top = ranked(alone)[0]!
  if (
    top.candidate.id === 'other' ||
    ids.has(top.candidate.id) ||
    top.share < limit(limits, 'secondFaultPct') / 100
  )
    return undefined
  const entry = unexplained.reduce(
    (best, i) => (ledger.entries[i]!.full[top.index]! > ledger.entries[best]!.full[top.index]! ? i : best),
    unexplained[0]!,
  )
  const { full } = ledger.entries[entry]!
  return full[top.index]! >= least - 1e-9
    ? {
        cause: top.candidate,
        share: top.share,
        entry,
        ledger: among(alone, full),
        robustness: robustnessOf(alone, [top.candidate], {
          factor: limit(limits, 'weightsOffFactor'),
          lapse: context.table.lapse,
        }),
      }
    : undefined
}

/** The shares of the causes an entry speaks for, and of what is not listed, made up to 1. */
function among(alone: Ledger, full: readonly number[]): Ledger {
  const kept = alone.posterior.map((p, i) => (full[i]! > 0 || alone.candidates[i]!.id === 'other' ? p : 0))
  const total = kept.reduce((sum, p) => sum + p, 0)
  return { ...alone, posterior: kept.map((p) => p / total) }
}
