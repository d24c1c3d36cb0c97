import { placeable, type Candidate } from './candidates.ts'
import { bankOf, type EngineLayout } from './engine-layout.ts'
import type { Observation } from './observation.ts'
import { readPlace, type PlaceMeaning } from './place-words.ts'
import type { CausesTable } from './schema.ts'

/**
 * How far an observation points at a candidate: 1 here, 0 elsewhere, between where the words leave it open (a gasket of
 * one of two banks, not said which).
 */
export function pointing(
  { kind, at }: Observation,
  about: { table: CausesTable; engine: EngineLayout },
): (candidate: Candidate) => number {
  const { engine } = about
  switch (at.kind) {
    case 'engine':
      return () => 1
    case 'bank':
      return (candidate) =>
        candidate.bank !== undefined
          ? Number(candidate.bank === at.bank)
          : candidate.cylinder !== undefined
            ? Number(bankOf(engine, candidate.cylinder) === at.bank)
            : 1
    case 'cylinders':
      return (candidate) =>
        candidate.cylinder !== undefined
          ? Number(at.cylinders.includes(candidate.cylinder))
          : candidate.bank !== undefined
            ? Number(at.cylinders.every((c) => bankOf(engine, c) === candidate.bank))
            : 1
    case 'places': {
      const among = placeable(about.table, kind)
      const isWork = about.table.evidence[kind]!.group === 'repair'
      const places = isWork ? at.places.flatMap((place) => [place, ...place.split(JOINED)]) : at.places
      const meanings = places.map((place) => ({ place, meaning: readPlace(place, { ...about, among }) }))
      return (candidate) =>
        Math.max(
          0,
          ...meanings.map(({ place, meaning }) => placePoints(candidate, place, { meaning, engine, isWork })),
        )
    }
  }
}

/** Parts named together in one row of work: "vacuum hose and injector 4". */
const JOINED = /\s*(?:[,;+&]|\band\b|\bund\b|\bet\b|\by\b)\s*/iu

/** The same for one candidate. */
export const pointedAt = (
  candidate: Candidate,
  observation: Observation,
  about: { table: CausesTable; engine: EngineLayout },
): number => pointing(observation, about)(candidate)

/** A leak at "the runner" is at one of them, nobody knows which; "plugs renewed" is work at all. */
function placePoints(
  candidate: Candidate,
  place: string,
  { meaning, engine, isWork }: { meaning: PlaceMeaning; engine: EngineLayout; isWork: boolean },
): number {
  if (candidate.place !== undefined) return Number(candidate.place === place)
  if (!meaning.causes.includes(candidate.id)) return 0
  if (candidate.cylinder !== undefined) {
    if (meaning.cylinders.length) return Number(meaning.cylinders.includes(candidate.cylinder))
    const seats = meaning.bank === undefined ? engine.cylinders : engine.banks![meaning.bank]!
    return seats.includes(candidate.cylinder) ? (isWork ? 1 : 1 / seats.length) : 0
  }
  if (candidate.bank !== undefined) {
    return meaning.bank !== undefined
      ? Number(candidate.bank === meaning.bank)
      : isWork
        ? 1
        : 1 / Object.keys(engine.banks!).length
  }
  return 1
}
