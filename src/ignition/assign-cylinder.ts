import { median } from '../maths/median.ts'
import type { SyncMark } from './event.ts'
import { firingIndex, indexOf, placeAt, timeOf, type FiringIndex } from './firing-index.ts'
import { firingPath, pathCost, wrapped, type FiringPath, type FiringRow } from './firing-path.ts'

/** What is known before cylinders are told. */
export interface AssignInput {
  /** Breakdown instants of one pickup, s, rising. */
  timesS: readonly number[]
  pulses: readonly SyncMark[]
  firingOrder: readonly number[]
  syncCylinder: number
  /** Cylinders this pickup sees. */
  seen: readonly number[]
}

export type SyncLoss =
  | 'no-pulses'
  | 'pulses-wide'
  | 'pulses-disagree'
  | 'pulse-midway'
  | 'too-few-events'
  | 'one-pulse'
  | 'firings-missing'

export interface Assignment {
  /** One per event: its cylinder; undefined where it is not beyond doubt. */
  cylinders: (number | undefined)[]
  /** One per event: told over a missing pulse by the firing order and the spacing. */
  bridged: boolean[]
  marks: SyncMark[]
  /** Set where no cylinder could be told at all. */
  lost: SyncLoss | undefined
}

/** Pulses whose places agree within this part of a firing interval are of one row. */
const AGREE_WITHIN = 0.3
/** The pulse must lie nearer to its own cylinder's firing than to the next one's by this part of an interval, and by four
 * times what its place scatters. */
const LEAST_MARGIN = 0.06
const MARGIN_SCATTERS = 4
/** Pulses that agree among themselves elsewhere, as a share of those in the row: more, and which is the row is in doubt. */
const MOST_RIVALS = 0.4
/** Share of the firings a pickup should see that must be found, or the length of a step itself is in doubt. */
const LEAST_FOUND = 0.6
/** A record with one pulse must be shorter than this many cycles: a second one would have come. */
const MOST_CYCLES_OF_ONE = 1.6
/** Beyond the first and last pulse, cylinders are told over this many cycles. */
const MOST_CYCLES_BEYOND = 2
/** Further from a pulse than this many cycles, an event's cylinder rests on the count. */
const BRIDGED_FROM_CYCLES = 1.5
/** An event is told where every count that gives it another cylinder is e^3 = 20 times less likely. */
const LEAST_SURE = 3
/** Places of the pulse tried, in parts of a firing interval. */
const PLACE_STEP = 0.2
/** Counts within e^6 = 400 of the best one are rivals. */
const RIVAL_COST = 6

/** Tells which cylinder each event belongs to. @returns every event undefined, and why, where the sync does not tell. */
export function assignCylinders(input: AssignInput): Assignment {
  const pulsesS = input.pulses.filter((p) => p.state === 'seen').map((p) => p.atS)
  if (pulsesS.length === 0)
    return nothing(input, input.pulses.some((p) => p.why === 'wide') ? 'pulses-wide' : 'no-pulses')
  if (input.timesS.length < 2) return nothing(input, 'too-few-events')
  const counted = count(input, pulsesS)
  const doubt = doubtOf(input, counted)
  return doubt === undefined ? told(input, counted) : nothing(input, doubt)
}

const nothing = (input: AssignInput, lost: SyncLoss): Assignment => ({
  cylinders: input.timesS.map(() => undefined),
  bridged: input.timesS.map(() => false),
  marks: [...input.pulses],
  lost,
})

/** The likeliest count of the firings, and where the pulses stand in it. */
interface Counted {
  row: FiringRow
  path: FiringPath
  index: FiringIndex
  /** By event: the unbroken stretch of the count it belongs to. */
  stretches: readonly number[]
  pulses: readonly PlacedPulse[]
  /** Another whole place of the pulse fits about as well and is about as near. */
  midway: boolean
}

interface PlacedPulse {
  atS: number
  /** In the row of firings. */
  place: number
  stretch: number
  /** Firings from where it should stand. */
  off: number
  agrees: boolean
}

function count(input: AssignInput, pulsesS: readonly number[]): Counted {
  const { timesS, firingOrder, syncCylinder } = input
  const cycle = firingOrder.length
  const own = firingOrder.indexOf(syncCylinder)
  const seen = firingOrder.map((_, p) => input.seen.includes(firingOrder[(own + p) % cycle]!))
  const about = { timesS, cycle, seen, pulsesS }
  if (seen.every(Boolean)) {
    const fit = place({ ...about, pulseAt: commonPlace(about) })
    return { ...fit, midway: isMidway(fit, () => true) }
  }
  const tried = triedPlaces(cycle).map((pulseAt) => ({ pulseAt, cost: pathCost({ ...about, pulseAt }) }))
  const { pulseAt, cost: least } = tried.reduce((a, b) => (b.cost < a.cost - 1e-9 ? b : a))
  const coarse = place({ ...about, pulseAt })
  const offs = coarse.pulses.filter((p) => p.agrees).map((p) => p.off)
  const fit = place({ ...about, pulseAt: pulseAt + (median(offs) ?? 0) })
  const fits = (at: number) =>
    tried.some((t) => Math.abs(t.pulseAt - at) <= PLACE_STEP && t.cost < least + RIVAL_COST)
  return { ...fit, midway: isMidway(fit, fits) }
}

/** Places of the pulse to try where the pickup does not see every firing: the whole cycle, the nearest first. */
const triedPlaces = (cycle: number): number[] =>
  Array.from({ length: Math.round(cycle / PLACE_STEP) + 1 }, (_, i) => i * PLACE_STEP - cycle / 2).sort(
    (a, b) => Math.abs(a) - Math.abs(b),
  )

/** Where most pulses stand about a firing, from -1/2 to 1/2: their place where every firing is seen. */
function commonPlace({ timesS, pulsesS }: Pick<FiringRow, 'timesS' | 'pulsesS'>): number {
  const rhythm = firingIndex(timesS)
  const shares = pulsesS.map((t) => wrapped(placeAt(timesS, rhythm, t), 1))
  const alike = (to: number) =>
    shares.map((share) => wrapped(share - to, 1)).filter((off) => Math.abs(off) < AGREE_WITHIN / 2)
  const common = shares.reduce((a, b) => (alike(b).length > alike(a).length ? b : a), shares[0] ?? 0)
  return wrapped(common + (median(alike(common)) ?? 0), 1)
}

function place(row: FiringRow): Omit<Counted, 'midway'> {
  const path = firingPath(row)
  const index = indexOf(row.timesS, path.steps)
  const stretches: number[] = []
  path.steps.forEach((step, i) =>
    stretches.push(i === 0 ? 0 : stretches[i - 1]! + (step === undefined ? 1 : 0)),
  )
  const pulses = row.pulsesS.map((atS) => {
    const i = nearestEvent(row.timesS, atS)
    const at = placeAt(row.timesS, index, atS)
    const off = wrapped(path.places[i]! + at - index.index[i]! - row.pulseAt, row.cycle)
    return { atS, place: at, stretch: stretches[i]!, off, agrees: Math.abs(off) < AGREE_WITHIN }
  })
  return { row, path, index, stretches, pulses }
}

function nearestEvent(timesS: readonly number[], atS: number): number {
  const after = timesS.findIndex((t) => t >= atS)
  if (after <= 0) return after === 0 ? 0 : timesS.length - 1
  return atS - timesS[after - 1]! < timesS[after]! - atS ? after - 1 : after
}

/** @param fits  whether the pulse may as well stand at another place */
function isMidway({ row, pulses }: Omit<Counted, 'midway'>, fits: (pulseAt: number) => boolean): boolean {
  const scatter = median(pulses.filter((p) => p.agrees).map((p) => Math.abs(p.off))) ?? 0
  const margin = Math.max(LEAST_MARGIN, MARGIN_SCATTERS * scatter)
  return [-2, -1, 1, 2].some(
    (by) => Math.abs(row.pulseAt + by) - Math.abs(row.pulseAt) < margin && fits(row.pulseAt + by),
  )
}

/** Why the count does not tell the cylinders; undefined where it does. */
function doubtOf({ firingOrder }: AssignInput, counted: Counted): SyncLoss | undefined {
  const { pulses, midway, index } = counted
  const agreeing = pulses.filter((p) => p.agrees)
  const others = pulses.filter((p) => !p.agrees)
  const rivals = Math.max(
    0,
    ...others.map(
      (a) => others.filter((b) => Math.abs(wrapped(a.off - b.off, firingOrder.length)) < AGREE_WITHIN).length,
    ),
  )
  if (agreeing.length < Math.min(2, pulses.length) || rivals > MOST_RIVALS * agreeing.length)
    return 'pulses-disagree'
  if (foundShare(counted) < LEAST_FOUND) return 'firings-missing'
  if (midway) return 'pulse-midway'
  return pulses.length === 1 && index.index.at(-1)! > MOST_CYCLES_OF_ONE * firingOrder.length
    ? 'one-pulse'
    : undefined
}

/** Share of the firings the pickup should have seen that were found. */
function foundShare({ row, path: { steps, places } }: Counted): number {
  let due = 0
  let found = 0
  steps.forEach((step, i) => {
    if (step === 0) return
    found += 1
    due += 1
    for (let back = 1; back < (step ?? 0); back++)
      if (row.seen[(((places[i]! - back) % row.cycle) + row.cycle) % row.cycle]) due += 1
  })
  return found / due
}

/** Cylinders by the count, near pulses that agree, and the marks that show what was bridged or struck out. */
function told(input: AssignInput, counted: Counted): Assignment {
  const { path, stretches, index } = counted
  const { firingOrder, syncCylinder, seen } = input
  const margins = path.margins()
  const cycle = firingOrder.length
  const own = firingOrder.indexOf(syncCylinder)
  const reach = input.timesS.map((_, i) =>
    cyclesFromPulse(counted, { stretch: stretches[i]!, place: index.index[i]! }, cycle),
  )
  const cylinders = input.timesS.map((_, i) => {
    // Two breakdowns in one cylinder's turn: which of them is its own cannot be told.
    if (path.steps[i] === 0 || path.steps[i + 1] === 0) return undefined
    if (reach[i] === undefined || margins[i]! < LEAST_SURE) return undefined
    const cylinder = firingOrder[(own + path.places[i]!) % cycle]!
    return seen.includes(cylinder) ? cylinder : undefined
  })
  return {
    cylinders,
    bridged: cylinders.map((c, i) => c !== undefined && reach[i]! > BRIDGED_FROM_CYCLES),
    marks: marks(input, counted),
    lost: undefined,
  }
}

/**
 * Cycles over which an event's cylinder is told: between the pulses about it, or from the nearest one beyond the ends;
 * undefined where that is too far or its stretch of the count has no pulse.
 */
function cyclesFromPulse(
  { pulses }: Counted,
  { stretch, place }: { stretch: number; place: number },
  cycle: number,
): number | undefined {
  const own = pulses.filter((p) => p.agrees && p.stretch === stretch)
  const before = own.findLast((p) => p.place <= place + 0.5)
  const after = own.find((p) => p.place >= place - 0.5)
  if (before && after) return (after.place - before.place) / cycle
  const near = before ?? after
  const far = near && Math.abs(near.place - place) / cycle
  return far !== undefined && far <= MOST_CYCLES_BEYOND ? far : undefined
}

/** Seen pulses, those struck out, and one mark for every pulse that should stand between two seen ones. */
function marks({ timesS, pulses }: AssignInput, counted: Counted): SyncMark[] {
  const { cycle } = counted.row
  const placed = counted.pulses.values()
  const out: SyncMark[] = pulses.map((mark) =>
    mark.state !== 'seen' || placed.next().value!.agrees
      ? mark
      : { ...mark, state: 'rejected', why: 'out-of-turn' },
  )
  const agreeing = counted.pulses.filter((p) => p.agrees)
  agreeing.slice(1).forEach((after, i) => {
    const before = agreeing[i]!
    if (before.stretch !== after.stretch) return
    const apart = after.place - before.place
    const missing = Math.round(apart / cycle) - 1
    for (let m = 1; m <= missing; m++) {
      const atS = timeOf(timesS, counted.index, before.place + (m * apart) / (missing + 1))
      out.push({ atS, state: 'bridged', why: 'missing' })
    }
  })
  return out.sort((a, b) => a.atS - b.atS)
}
