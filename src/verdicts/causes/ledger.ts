import { candidateKey, candidatesFor, placeable, type Candidate } from './candidates.ts'
import type { EngineLayout } from './engine-layout.ts'
import { observationKey, type Observation } from './observation.ts'
import { readPlace } from './place-words.ts'
import { pointing } from './pointed-at.ts'
import { valueFor, type CausesTable } from './schema.ts'

export interface LedgerContext {
  table: CausesTable
  engine: EngineLayout
}

/** One piece of evidence as weighed. */
export interface LedgerEntry {
  observation: Observation
  /** Evidence that leans on the same ground has the same group. */
  group: string
  /** Natural logarithm of its likelihood ratio under each candidate, at full power; in the order of the candidates. */
  full: readonly number[]
  /** Share of its full weight it was given: 1, less where it repeats its group or rests on eye or ear, 0 where contradicted. */
  power: number
  /** `full` times `power`. */
  push: readonly number[]
}

export interface Ledger {
  candidates: readonly Candidate[]
  /** Posterior of each candidate; they sum to 1. */
  posterior: readonly number[]
  entries: readonly LedgerEntry[]
}

/**
 * The ledger of causes: prior times likelihood ratios, over every cause at every place and over all that is not listed.
 * Works with logarithms; the order of the observations does not matter.
 *
 * Evidence that leans on the same ground is one group. The entry of a group that moves the standing most counts in full,
 * every other one to the power `repeat`: 1 would take them as independent, 0 would leave them out.
 *
 * @source Bayes' rule for likelihood ratios; the tempering of dependent evidence and every ratio: project-judgement
 */
export function weigh(observations: readonly Observation[], context: LedgerContext): Ledger {
  const { table, engine } = context
  const known = sorted(observations).filter((o) => table.evidence[o.kind] !== undefined)
  const candidates = candidatesFor(table, engine, known)
  const bare = known
    .map((observation) => ({
      observation,
      group: groupKey(observation, context),
      full: logRatios(candidates, observation, context),
    }))
    .filter(({ full }) => spread(full) > 0)
  return settled(candidates, bare, table)
}

/** The ledger without one of its entries, the weights of its group shared out anew among the others. */
export const without = ({ candidates, entries }: Ledger, index: number, { table }: LedgerContext): Ledger =>
  settled(
    candidates,
    entries.filter((_, i) => i !== index),
    table,
  )

/** The ledger of some of its entries alone. */
export const ofEntries = (
  { candidates, entries }: Ledger,
  indices: readonly number[],
  { table }: LedgerContext,
): Ledger =>
  settled(
    candidates,
    indices.map((i) => entries[i]!),
    table,
  )

type Bare = Pick<LedgerEntry, 'observation' | 'group' | 'full'>

function settled(candidates: readonly Candidate[], all: readonly Bare[], table: CausesTable): Ledger {
  const powers = powersOf(all, table)
  const entries = all.map(({ observation, group, full }, i): LedgerEntry => ({
    observation,
    group,
    full,
    power: powers[i]!,
    push: full.map((l) => l * powers[i]!),
  }))
  return {
    candidates,
    entries,
    posterior: withLapse(candidates, posteriorOf(candidates, entries), table.lapse),
  }
}

/** Normalised so that they sum to 1. @source Bayes' rule; shifted by the largest logarithm so that none overflows */
export function posteriorOf(
  candidates: readonly { prior: number }[],
  entries: readonly { push: readonly number[] }[],
): number[] {
  const logs = candidates.map((c, i) => Math.log(c.prior) + entries.reduce((sum, e) => sum + e.push[i]!, 0))
  const highest = Math.max(...logs)
  const weights = logs.map((l) => Math.exp(l - highest))
  const total = weights.reduce((sum, w) => sum + w, 0)
  return weights.map((w) => w / total)
}

/** Shares with some kept for what is not listed: no evidence is proof against entries that mislead. Ranks of the others stay. */
const withLapse = (candidates: readonly Candidate[], posterior: readonly number[], lapse: number): number[] =>
  posterior.map((p, i) => (candidates[i]!.id === 'other' ? lapse + (1 - lapse) * p : (1 - lapse) * p))

/** Candidates by posterior, the highest first; ties by key. */
export const ranked = ({
  candidates,
  posterior,
}: Ledger): { candidate: Candidate; share: number; index: number }[] =>
  candidates
    .map((candidate, index) => ({ candidate, share: posterior[index]!, index }))
    .sort((a, b) => b.share - a.share || (candidateKey(a.candidate) < candidateKey(b.candidate) ? -1 : 1))

/**
 * How many times likelier the observation is under each candidate than under a fault that is not listed, as logarithms.
 * A fault that is not listed is taken to sit at any cylinder: that it picks out one certain of eight is half as likely as
 * one certain of four, for which the table is written. Priors are shared out over cylinders; without this the same fault
 * would look half as likely on the larger engine.
 */
function logRatios(
  candidates: readonly Candidate[],
  observation: Observation,
  context: LedgerContext,
): number[] {
  const { likelihood, otherwise, picks } = context.table.evidence[observation.kind]!
  const chosenFrom = picks ? context.engine.cylinders.length / context.table.cylinders : 1
  const valueOf = new Map(
    Object.keys(context.table.causes).map((cause) => [
      cause,
      valueFor(context.table, { of: likelihood, otherwise, cause }),
    ]),
  )
  const points = pointing(observation, context)
  return candidates.map((candidate) => {
    const value = valueOf.get(candidate.id)!
    if (candidate.id === 'other') return 0
    if (typeof value === 'number') return Math.log(value)
    const here = points(candidate)
    return Math.log(
      here * value.here * (candidate.cylinder === undefined ? 1 : chosenFrom) + (1 - here) * value.elsewhere,
    )
  })
}

function powersOf(all: readonly Bare[], table: CausesTable): number[] {
  const own = all.map(({ observation: o }) => (o.contradicted ? 0 : o.sure ? 1 : table.unsure))
  const strength = all.map(({ full }, i) => own[i]! * spread(full))
  const leaders = new Map<string, number>()
  all.forEach(({ group }, i) => {
    const leader = leaders.get(group)
    if (leader === undefined || strength[i]! > strength[leader]!) leaders.set(group, i)
  })
  return all.map(
    ({ group, observation }, i) =>
      own[i]! *
      (leaders.get(group) === i ? 1 : table.groups[table.evidence[observation.kind]!.group]!.repeat),
  )
}

/** Evidence about places is grouped by what the places mean, so that two names of one hose are one place. */
function groupKey({ kind, at }: Observation, { table, engine }: LedgerContext): string {
  const { group } = table.evidence[kind]!
  if (at.kind !== 'places' || group === 'repair') return group
  const meanings = at.places.map((place) => {
    const { causes, cylinders, bank } = readPlace(place, { table, engine, among: placeable(table, kind) })
    return causes.length ? [causes, cylinders, bank] : place
  })
  return JSON.stringify([group, meanings])
}

const spread = (logs: readonly number[]): number => Math.max(...logs) - Math.min(...logs)

const sorted = (observations: readonly Observation[]): Observation[] =>
  observations
    .map((o) => ({ o, key: observationKey(o) }))
    .sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0))
    .map(({ o }) => o)

/**
 * The cause that comes first. Of parts that are fitted and wear as a set (plugs) all places count together where a finding
 * lays it at each of them alike: the share is only spread out because there are so many places.
 */
export function leading(ledger: Ledger, table: CausesTable): ReturnType<typeof ranked>[number] {
  const order = ranked(ledger)
  const sets = order.flatMap((best) => {
    const seats = order.filter((o) => o.candidate.id === best.candidate.id)
    const isSet =
      table.causes[best.candidate.id]!.set === true &&
      seats[0] === best &&
      seats.length > 1 &&
      seats.every((s) => s.share * SET_SPREAD >= best.share) &&
      ledger.entries.some((e) => e.power > 0 && seats.every((s) => e.push[s.index]! > 0))
    return isSet ? [{ best, share: seats.reduce((sum, s) => sum + s.share, 0) }] : []
  })
  const set = sets.toSorted((a, b) => b.share - a.share)[0]
  return set && set.share > order[0]!.share ? set.best : order[0]!
}

/** Places that differ by less make a set. */
const SET_SPREAD = 2
