import { makeRandom } from '../../maths/random.ts'
import { candidateKey, type Candidate } from './candidates.ts'
import { observationKey } from './observation.ts'
import { posteriorOf, type Ledger } from './ledger.ts'

/** How the first place fares when weights and priors are off. */
export interface Robustness {
  /** Share of the first cause, all its places together: the middle nine tenths of what it comes to. */
  low: number
  high: number
  /** How often it keeps first place, 0 to 1. */
  keepsFirst: number
}

/** So many tables, each off in its own way; fixed, so that a job gives the same answer each time. */
const TRIALS = 200
const SEED = 20_260_301
const TAIL = 0.05

/**
 * The ledger weighed again with every prior and every ratio off by up to a factor, each by its own amount and either way
 * (evenly in the logarithm): the tables of weights are judgement, and what rests on them alone must not be called clear.
 * Priors are off cause by cause; ratios by kind of evidence and cause, the same wherever the cause sits.
 *
 * @param firsts  the first cause at all its places
 * @param factor  2: from half to twice
 * @param lapse  share kept for what is not listed
 */
export function robustnessOf(
  ledger: Ledger,
  firsts: readonly Candidate[],
  { factor, lapse }: { factor: number; lapse: number },
): Robustness {
  const { candidates, entries } = ledger
  const ids = [...new Set(candidates.map((c) => c.id))].sort()
  const idOf = candidates.map((c) => ids.indexOf(c.id))
  const keys = new Set(firsts.map(candidateKey))
  const isFirst = candidates.map((c) => keys.has(candidateKey(c)))
  const isSet = firsts.length > 1 && candidates.every((c, i) => c.id !== firsts[0]!.id || isFirst[i])
  const order = entries
    .map((entry) => ({ entry, key: observationKey(entry.observation) }))
    .sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0))
    .map(({ entry }) => entry)
  const random = makeRandom(SEED)
  const off = () => (2 * random.uniform() - 1) * Math.log(factor)
  const shares: number[] = []
  let kept = 0
  for (let trial = 0; trial < TRIALS; trial++) {
    const ofPrior = ids.map(off)
    const priors = candidates.map((c, i) => ({ prior: c.prior * Math.exp(ofPrior[idOf[i]!]!) }))
    const pushed = order.map(({ push, power }) => {
      const ofRatio = ids.map(off)
      // What has no effect on a cause at all cannot be off, nor can the cause all ratios are relative to.
      return {
        push: push.map((p, i) =>
          p === 0 || candidates[i]!.id === 'other' ? p : p + power * ofRatio[idOf[i]!]!,
        ),
      }
    })
    const posterior = posteriorOf(priors, pushed)
    const highest = posterior.indexOf(Math.max(...posterior))
    const share = posterior.reduce((sum, p, i) => sum + (isFirst[i] ? p : 0), 0)
    if (isFirst[highest] || (isSet && share > posterior[highest]!)) kept++
    shares.push(share)
  }
  shares.sort((a, b) => a - b)
  const at = (share: number) => (1 - lapse) * shares[Math.round(share * (TRIALS - 1))]!
  return { low: at(TAIL), high: at(1 - TAIL), keepsFirst: kept / TRIALS }
}
