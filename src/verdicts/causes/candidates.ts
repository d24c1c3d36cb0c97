import type { EngineLayout } from './engine-layout.ts'
import type { Observation } from './observation.ts'
import { readPlace } from './place-words.ts'
import { valueFor, type CausesTable } from './schema.ts'

/** A cause at one place of the engine. Shared-out priors sum to 1 over all candidates. */
export interface Candidate {
  /** Id of the table. */
  id: string
  cylinder: number | undefined
  bank: string | undefined
  /** In the technician's words, for a place that no words of the table fit. */
  place: string | undefined
  prior: number
}

/** A short name that is the same for the same candidate. */
export const candidateKey = ({ id, cylinder, bank, place }: Omit<Candidate, 'prior'>): string =>
  [id, cylinder, bank, place].filter((p) => p !== undefined).join('|')

const LEAK_AT_PLACE = 'leak-at-place'
/** Kinds that make a candidate of a place the table has no words for: something was found there. */
const FOUND_THERE: ReadonlySet<string> = new Set([
  'spray-response',
  'isolation-itself',
  'isolation-through',
  'cap-changed',
  'smoke-leak',
])

/**
 * Every cause at every place it can sit: once for the engine, once a bank or cylinder, once for each place where a leak
 * was found and no words of the table fit. A cause of a bank stands once for the engine where no banks are known; a part
 * the engine's ignition does not have is left out.
 */
export function candidatesFor(
  table: CausesTable,
  engine: EngineLayout,
  observations: readonly Observation[],
): Candidate[] {
  const places = placesWithoutWords(table, engine, observations)
  const fitted = Object.entries(table.causes).filter(
    ([, { ignitions }]) => !ignitions || !engine.ignition || ignitions.includes(engine.ignition),
  )
  const total = fitted.reduce(
    (sum, [, c]) => sum + (c.where === 'place' ? c.prior * places.length : c.prior),
    0,
  )
  return fitted.flatMap(([id, { where, prior }]) => {
    const seats = seatsOf(where, engine, places)
    const each = where === 'place' ? prior / total : prior / total / Math.max(1, seats.length)
    return seats.map((seat) => ({
      id,
      cylinder: undefined,
      bank: undefined,
      place: undefined,
      ...seat,
      prior: each,
    }))
  })
}

type Seat = Partial<Pick<Candidate, 'cylinder' | 'bank' | 'place'>>

function seatsOf(
  where: 'engine' | 'bank' | 'cylinder' | 'place',
  engine: EngineLayout,
  places: readonly string[],
): Seat[] {
  const banks = Object.keys(engine.banks ?? {})
  switch (where) {
    case 'engine':
      return [{}]
    case 'cylinder':
      return engine.cylinders.map((cylinder) => ({ cylinder }))
    case 'bank':
      return banks.length ? banks.map((bank) => ({ bank })) : [{}]
    case 'place':
      return places.map((place) => ({ place }))
  }
}

function placesWithoutWords(
  table: CausesTable,
  engine: EngineLayout,
  observations: readonly Observation[],
): string[] {
  const named = observations.flatMap((o) =>
    FOUND_THERE.has(o.kind) && o.at.kind === 'places'
      ? o.at.places.map((place) => ({ place, kind: o.kind }))
      : [],
  )
  const bare = named.filter(
    ({ place, kind }) =>
      readPlace(place, { table, engine, among: placeable(table, kind) }).causes.length === 0,
  )
  return [...new Set(bare.map((n) => n.place))].sort()
}

/** Causes that a kind of evidence can point at by place: those with a value for here and one for elsewhere. */
export function placeable(table: CausesTable, kind: string): readonly string[] {
  const ofKinds = PLACEABLE.get(table) ?? new Map<string, readonly string[]>()
  PLACEABLE.set(table, ofKinds)
  const { likelihood, otherwise } = table.evidence[kind]!
  const known =
    ofKinds.get(kind) ??
    Object.keys(table.causes).filter(
      (cause) =>
        cause !== LEAK_AT_PLACE &&
        cause !== 'other' &&
        typeof valueFor(table, { of: likelihood, otherwise, cause }) !== 'number',
    )
  ofKinds.set(kind, known)
  return known
}

/** Worked out once for every table and kind. */
const PLACEABLE = new WeakMap<CausesTable, Map<string, readonly string[]>>()
