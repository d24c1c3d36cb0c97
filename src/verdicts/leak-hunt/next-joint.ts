import type { CausesTable } from '../causes/schema.ts'
import { covers, likelihoodOf, seatsOf, type Seat } from './intake-path.ts'
import type { LeakHunt, TriedPlace } from './leak-hunt.ts'
import type { EngineLayout } from '../causes/engine-layout.ts'

/** Which cylinders draw too much air: the seats that could make it so follow from it. */
export type Drawn =
  { kind: 'all' } | { kind: 'bank'; bank: string } | { kind: 'cylinders'; cylinders: readonly number[] }

/** How a joint is tried. */
export const WAYS = ['spray', 'cap', 'cap-and-spray', 'again', 'smoke'] as const
export type Way = (typeof WAYS)[number]

/** The next joint to try. */
export interface NextJoint {
  way: Way
  /** The technician's own word, where the place was tried before. */
  place: string | undefined
  /** Undefined for smoke, which looks at all that is left. */
  seat: Seat | undefined
  /** Share of what is left that it looks at; undefined where a place has answered and is to be made sure of. */
  share: number | undefined
}

/**
 * The joint that halves what is left: of all that can be tried in one go, the one whose share of the likelihood is nearest
 * to a half. A place that answered comes first, until nothing else can explain its answer. Undefined where one place is
 * proven.
 *
 * @param drawn  what the captures show; all of the engine where they show nothing
 */
export function nextJoint(
  hunt: LeakHunt,
  { engine, table, drawn }: { engine: EngineLayout; table: CausesTable; drawn: Drawn },
): NextJoint | undefined {
  const { places } = hunt
  if (places.some((p) => p.state === 'answered' && p.proven)) return undefined
  const torn = places.find((p) => p.state === 'disputed')
  const answered = places.find((p) => p.state === 'answered')
  const open = answered ?? torn
  if (open) return { way: wayOf(open), place: open.place, seat: open.seat, share: undefined }
  const silent = places.filter((p) => p.state === 'silent' || p.state === 'through')
  const left = seatsOf(engine)
    .filter((seat) => couldDraw(seat, drawn, engine))
    .filter((seat) => !silent.some((p) => p.seat && covers(p.seat, seat)))
    .map((seat) => ({ seat, weight: likelihoodOf(seat, { table, engine }) }))
  const all = left.reduce((sum, { weight }) => sum + weight, 0)
  if (all === 0) return { way: 'smoke', place: undefined, seat: undefined, share: undefined }
  const best = inOneGo(left).reduce((a, b) => (evenness(b.weight / all) > evenness(a.weight / all) ? b : a))
  return {
    way: best.seat.station === 'hose' ? 'cap' : 'spray',
    place: undefined,
    seat: best.seat,
    share: best.weight / all,
  }
}

const evenness = (share: number): number => Math.min(share, 1 - share)

/** A hose is closed off; a joint is sprayed with the hoses closed; what contradicts itself is tried again. */
const wayOf = ({ state, seat }: TriedPlace): Way =>
  state === 'disputed' ? 'again' : seat?.station === 'hose' ? 'cap' : 'cap-and-spray'

interface Weighed {
  seat: Seat
  weight: number
}

/** What one step can try: all hoses closed together, any other seat by itself. */
function inOneGo(left: readonly Weighed[]): Weighed[] {
  const hoses = left.filter(({ seat }) => seat.station === 'hose')
  const others = left.filter(({ seat }) => seat.station !== 'hose')
  if (hoses.length === 0) return others
  const one: Seat = hoses.length === 1 ? hoses[0]!.seat : { ...hoses[0]!.seat, hose: undefined }
  return [{ seat: one, weight: hoses.reduce((sum, { weight }) => sum + weight, 0) }, ...others]
}

/** Whether air at a seat would lean out the cylinders that are lean, and no others. */
function couldDraw(seat: Seat, drawn: Drawn, engine: EngineLayout): boolean {
  const own = seat.station === 'runner' || seat.station === 'port'
  switch (drawn.kind) {
    case 'all':
      return !own && (seat.station !== 'manifold' || engine.banks === undefined)
    case 'bank':
      return (own || seat.station === 'manifold') && seat.bank === drawn.bank
    case 'cylinders':
      return own ? drawn.cylinders.includes(seat.cylinder!) : seat.station === 'manifold'
  }
}
