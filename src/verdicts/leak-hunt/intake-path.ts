import { placeWordsOf } from '../../test-log/place/read-words.ts'
import { causeKind } from '../causes/cause-kinds.ts'
import { readPlace } from '../causes/place-words.ts'
import type { EngineLayout } from '../causes/engine-layout.ts'
import type { CausesTable } from '../causes/schema.ts'
import { HOSES, type Hose, type Station } from './stations.ts'

/** One piece of the path that can be tried by itself: a station, at its bank or cylinder, or one kind of hose. */
export interface Seat {
  station: Station
  /** Only of hoses: which one. */
  hose: Hose | undefined
  bank: string | undefined
  cylinder: number | undefined
}

/** Where a cause of the table sits, its bank and cylinder left open; undefined off the path. */
export const seatOfCause = (cause: string): Seat | undefined => {
  const at = causeKind(cause)?.seat
  return at && { station: at.station, hose: at.hose, bank: undefined, cylinder: undefined }
}

/** The cause that sits there, and the share of its prior that is this seat's. */
function causeAt(seat: Seat, engine: EngineLayout): { cause: string; share: number } {
  const banks = Object.keys(engine.banks ?? {}).length || 1
  switch (seat.station) {
    case 'meter':
      return { cause: 'leak-intake-duct', share: METER_SHARE }
    case 'duct':
      return { cause: 'leak-intake-duct', share: 1 - METER_SHARE }
    case 'throttle':
      return { cause: 'leak-throttle-body', share: 1 - PLENUM_SHARE }
    case 'plenum':
      return { cause: 'leak-throttle-body', share: PLENUM_SHARE }
    case 'hose':
      return { cause: CAUSE_OF_HOSE[seat.hose!], share: 1 }
    case 'manifold':
      return { cause: 'leak-manifold', share: 1 / banks }
    case 'runner':
      return { cause: 'leak-runner-joint', share: 1 / engine.cylinders.length }
    case 'port':
      return { cause: 'leak-injector-seal', share: 1 / engine.cylinders.length }
  }
}

const CAUSE_OF_HOSE: Readonly<Record<Hose, string>> = {
  vacuum: 'leak-vacuum-hose',
  breather: 'leak-crankcase-ventilation',
  'brake servo': 'leak-brake-booster',
  purge: 'purge-stuck-open',
  'exhaust recirculation': 'egr-stuck-open',
}

/** Of leaks in the duct those at the air meter's own joint, and of leaks at throttle and plenum those at the plenum. Common practice, no source. */
const METER_SHARE = 0.3
const PLENUM_SHARE = 0.3

/** How likely a leak sits there, before anything was tried, relative to the other seats: from the priors of the table of causes. */
export function likelihoodOf(
  seat: Seat,
  { table, engine }: { table: CausesTable; engine: EngineLayout },
): number {
  const { cause, share } = causeAt(seat, engine)
  return (table.causes[cause]?.prior ?? 0) * share
}

/** The seat that the technician's words for a place mean; undefined where they name no one place of the path. */
export function seatOf(
  place: string,
  { table, engine }: { table: CausesTable; engine: EngineLayout },
): Seat | undefined {
  // Of all causes: what fits a part off the path better (an exhaust manifold) is no seat of it.
  const { causes, bank, cylinder } = readPlace(place, { table, engine, among: Object.keys(table.causes) })
  const seats = causes.flatMap((cause) => causeKind(cause)?.seat ?? [])
  const first = seats[0]
  if (!first || seats.some((s) => s.station !== first.station)) return undefined
  const station = first.station === 'throttle' && isPlenum(place) ? 'plenum' : first.station
  const own = station === 'runner' || station === 'port'
  if (own && cylinder === undefined) return undefined
  return {
    station,
    hose: seats.length === 1 ? first.hose : undefined,
    bank: own || station === 'manifold' ? bank : undefined,
    cylinder: own ? cylinder : undefined,
  }
}

/** The plenum's own joint: named without the throttle it carries. */
function isPlenum(place: string): boolean {
  const words = placeWordsOf(place)
  return words.includes('plenum') && !words.includes('throttle')
}

/** Every seat of an engine, in the order of the path. */
export function seatsOf(engine: EngineLayout): Seat[] {
  const seat = (station: Station, more: Partial<Seat> = {}): Seat => ({
    station,
    hose: undefined,
    bank: undefined,
    cylinder: undefined,
    ...more,
  })
  const banks = Object.keys(engine.banks ?? {})
  const bankOf = (cylinder: number) => banks.find((bank) => engine.banks![bank]!.includes(cylinder))
  const each = (station: Station) =>
    engine.cylinders.map((cylinder) => seat(station, { cylinder, bank: bankOf(cylinder) }))
  return [
    seat('meter'),
    seat('duct'),
    seat('throttle'),
    seat('plenum'),
    ...HOSES.map((hose) => seat('hose', { hose })),
    ...(banks.length > 0 ? banks.map((bank) => seat('manifold', { bank })) : [seat('manifold')]),
    ...each('runner'),
    ...each('port'),
  ]
}

/** Whether a test at `tried` looked at `seat`: hoses without a name are all hoses, a gasket without a bank is both. */
export const covers = (tried: Seat, seat: Seat): boolean =>
  tried.station === seat.station &&
  (tried.hose === undefined || tried.hose === seat.hose) &&
  (tried.bank === undefined || seat.bank === undefined || tried.bank === seat.bank) &&
  (tried.cylinder === undefined || tried.cylinder === seat.cylinder)
