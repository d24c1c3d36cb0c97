import { median } from '../maths/median.ts'
import type { SyncMark } from './event.ts'
import { firingIndex, placeAt, timeOf, type FiringIndex } from './firing-index.ts'

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
/** Share of the firings a pickup should see that must be found, or the length of a step itself is in doubt. */
const LEAST_FOUND = 0.6
/** A record with one pulse must be shorter than this many cycles: a second one would have come. */
const MOST_CYCLES_OF_ONE = 1.6
/** Beyond the first and last pulse, cylinders are told over this many cycles. */
const MOST_CYCLES_BEYOND = 2

/** Tells which cylinder each event belongs to. @returns every event undefined, and why, where the sync does not tell. */
export function assignCylinders(input: AssignInput): Assignment {
  const seen = input.pulses.filter((p) => p.state === 'seen').map((p) => p.atS)
  if (seen.length === 0)
    return nothing(input, input.pulses.some((p) => p.why === 'wide') ? 'pulses-wide' : 'no-pulses')
  if (input.timesS.length < 2) return nothing(input, 'too-few-events')
  const readings = stepCandidates(input, seen).map((stepS) => read(input, { pulsesS: seen, stepS }))
  const best = readings.reduce((a, b) => (b.score > a.score + 1e-9 ? b : a))
  const doubt = doubtOf(input, best)
  return doubt === undefined ? told(input, best) : nothing(input, doubt)
}

/** Why the best reading does not tell the cylinders; undefined where it does. */
function doubtOf(
  { firingOrder }: AssignInput,
  { runs, anchor, found, count, places }: Reading,
): SyncLoss | undefined {
  if (runs.length === 0) return 'pulses-disagree'
  if (found < LEAST_FOUND) return 'firings-missing'
  if (anchor === undefined) return 'pulse-midway'
  return places.length === 1 && count.index.at(-1)! > MOST_CYCLES_OF_ONE * firingOrder.length
    ? 'one-pulse'
    : undefined
}

const nothing = (input: AssignInput, lost: SyncLoss): Assignment => ({
  cylinders: input.timesS.map(() => undefined),
  bridged: input.timesS.map(() => false),
  marks: [...input.pulses],
  lost,
})

/** Lengths of a firing interval worth trying: from the pulses, and from the events and how they may be spaced. */
function stepCandidates({ timesS, firingOrder, seen }: AssignInput, pulsesS: readonly number[]): number[] {
  const cycle = median(pulsesS.slice(1).map((t, i) => t - pulsesS[i]!))
  const gap = median(timesS.slice(1).map((t, i) => t - timesS[i]!))!
  const candidates = cycle === undefined ? [] : [cycle / firingOrder.length]
  for (let steps = 1; steps <= Math.ceil(firingOrder.length / seen.length); steps++)
    candidates.push(gap / steps)
  return candidates
}

/** A run of pulses a whole number of cycles apart: of which pulses, and its place modulo the cycle. */
interface Run {
  pulses: number[]
  place: number
}

/** One way of counting the firings, and how well it agrees with the pulses and the pickup. */
interface Reading {
  count: FiringIndex
  /** Place of every pulse in the row of firings. */
  places: number[]
  runs: Run[]
  /** For every run the place that belongs to the sync cylinder's firing; undefined where midway. */
  anchor: number[] | undefined
  /** Share of the firings the pickup should have seen that were found. */
  found: number
  score: number
}

function read(
  input: AssignInput,
  { pulsesS, stepS }: { pulsesS: readonly number[]; stepS: number },
): Reading {
  const count = firingIndex(input.timesS, stepS)
  const places = pulsesS.map((t) => placeAt(input.timesS, count, t))
  const runs = agreeingRuns(places, input.firingOrder.length)
  const anchors = runs.map((run) => anchorOf(input, { run, count, places }))
  const anchor = anchors.every((a) => a !== undefined) && runs.length > 0 ? (anchors as number[]) : undefined
  const inRuns = runs.reduce((n, run) => n + run.pulses.length, 0) / places.length
  const unsure = count.sure.filter((s) => !s).length / count.sure.length
  const due = ((count.index.at(-1)! + 1) * input.seen.length) / input.firingOrder.length
  const found = new Set(count.index).size / Math.max(1, due)
  const score = inRuns - unsure - 0.1 * Math.max(0, runs.length - 1) + (anchor ? 1 : 0) + Math.min(1, found)
  return { count, places, runs, anchor, found, score }
}

const wrap = (x: number, cycle: number): number => x - cycle * Math.round(x / cycle)

/**
 * Pulses parted into runs that follow one another in time, each of two or more that agree. A pulse that disagrees with
 * the run about it is an extra one, in none. More than one run means that the count slipped, or samples were lost,
 * between them. A run beside whose pulses others agree among themselves nearly as often is none: which is the true row
 * cannot be told. A record with one pulse only has one run of one.
 */
function agreeingRuns(places: readonly number[], cycle: number): Run[] {
  if (places.length === 1) return [{ pulses: [0], place: places[0]! }]
  const agree = (a: number, b: number): boolean =>
    Math.abs(wrap(places[a]! - places[b]!, cycle)) < AGREE_WITHIN
  const rows: number[][] = []
  let astray: number[] = []
  places.forEach((_, i) => {
    const row = rows.at(-1)
    if (row && agree(row.at(-1)!, i)) {
      row.push(i)
      astray = []
    } else if (astray.length > 0 && agree(astray.at(-1)!, i)) {
      rows.push([astray.at(-1)!, i])
      astray = []
    } else astray.push(i)
  })
  return rows.filter((row) => !rivalled(row, agree)).map((pulses) => ({ pulses, place: places[pulses[0]!]! }))
}

/** Whether the pulses left out within a row's span hold a row of their own nearly half as long, or longer. */
function rivalled(row: readonly number[], agree: (a: number, b: number) => boolean): boolean {
  const held = new Set(row)
  const out: number[] = []
  for (let i = row[0]!; i <= row.at(-1)!; i++) if (!held.has(i)) out.push(i)
  const longest = out.reduce((most, a) => Math.max(most, out.filter((b) => agree(a, b)).length), 0)
  return longest > 0.4 * row.length
}

/** The whole place, at or near the run's, that is the sync cylinder's; undefined where two are about as near. */
function anchorOf(
  { firingOrder, syncCylinder, seen }: AssignInput,
  { run, count, places }: { run: Run; count: FiringIndex; places: readonly number[] },
): number | undefined {
  const cycle = firingOrder.length
  const offset = run.place + (median(run.pulses.map((p) => wrap(places[p]! - run.place, cycle))) ?? 0)
  const own = firingOrder.indexOf(syncCylinder)
  const spots = new Set(seen.map((c) => firingOrder.indexOf(c)))
  const near = events(count, { run, places })
  const ranked: { place: number; off: number }[] = []
  for (let k = Math.round(offset) - cycle; k <= Math.round(offset) + cycle; k++) {
    const fitting = near.filter((n) => spots.has((((own + n - k) % cycle) + cycle) % cycle)).length
    if (fitting >= 0.9 * near.length) ranked.push({ place: k, off: Math.abs(offset - k) })
  }
  ranked.sort((a, b) => a.off - b.off)
  const [first, second] = ranked
  const scatter = median(run.pulses.map((p) => Math.abs(wrap(places[p]! - offset, cycle)))) ?? 0
  const margin = Math.max(LEAST_MARGIN, MARGIN_SCATTERS * scatter)
  return !first || (second && second.off - first.off < margin) ? undefined : first.place
}

/** Places of the events within a cycle or so of a run. */
function events({ index }: FiringIndex, { run, places }: { run: Run; places: readonly number[] }): number[] {
  const from = places[run.pulses[0]!]! - 8
  const to = places[run.pulses.at(-1)!]! + 8
  return index.filter((n) => n >= from && n <= to)
}

/** Cylinders by the count, within and next to the runs, and the marks that show what was bridged or struck out. */
function told(input: AssignInput, { count, places, runs, anchor }: Reading): Assignment {
  const cycle = input.firingOrder.length
  const own = input.firingOrder.indexOf(input.syncCylinder)
  const cylinders = input.timesS.map((): number | undefined => undefined)
  const bridged = input.timesS.map(() => false)
  input.timesS.forEach((_, i) => {
    const n = count.index[i]!
    // Two breakdowns in one cylinder's turn: which of them is its own cannot be told.
    if (n === count.index[i - 1] || n === count.index[i + 1]) return
    const found = nearestRun(n, { runs, places, count, i, cycle })
    if (!found) return
    const cylinder = input.firingOrder[(((own + n - anchor![found.run]!) % cycle) + cycle) % cycle]!
    if (!input.seen.includes(cylinder)) return
    cylinders[i] = cylinder
    bridged[i] = found.bridged
  })
  return { cylinders, bridged, marks: marks(input, { count, places, runs }), lost: undefined }
}

interface Surroundings {
  runs: readonly Run[]
  places: readonly number[]
  count: FiringIndex
  i: number
  cycle: number
}

/** The run that tells an event's cylinder: one that spans it, or the one it adjoins with every step between sure. */
function nearestRun(n: number, at: Surroundings): { run: number; bridged: boolean } | undefined {
  const { runs, places, cycle } = at
  for (let r = 0; r < runs.length; r++) {
    const own = runs[r]!.pulses.map((p) => places[p]!)
    if (n < own[0]! - 0.5 || n > own.at(-1)! + 0.5) continue
    const next = Math.max(
      1,
      own.findIndex((p) => p > n - 0.5),
    )
    const before = own[next - 1]!
    const after = own[next] ?? before
    if (after - before < 1.5 * cycle) return { run: r, bridged: false }
    return sureBetween(at, before, after) ? { run: r, bridged: true } : undefined
  }
  const ends = runs.flatMap((run, r) =>
    [run.pulses[0]!, run.pulses.at(-1)!].map((p) => ({ r, place: places[p]! })),
  )
  const nearest = ends.reduce((a, b) => (Math.abs(b.place - n) < Math.abs(a.place - n) ? b : a))
  const far = Math.abs(nearest.place - n)
  const between = runs.length > 1 && n > ends[0]!.place && n < ends.at(-1)!.place
  if (between || far > MOST_CYCLES_BEYOND * cycle || !sureBetween(at, nearest.place, n)) return undefined
  return { run: nearest.r, bridged: far > 1.5 * cycle }
}

function sureBetween({ count }: Surroundings, a: number, b: number): boolean {
  const [from, to] = a < b ? [a, b] : [b, a]
  return count.index.every((n, i) => count.sure[i]! || n < from || count.index[i - 1]! > to)
}

/** Seen pulses, those struck out, and one mark for every pulse that should stand between two seen ones. */
function marks(
  input: AssignInput,
  { count, places, runs }: { count: FiringIndex; places: readonly number[]; runs: readonly Run[] },
): SyncMark[] {
  const cycle = input.firingOrder.length
  const held = new Set(runs.flatMap((r) => r.pulses))
  let pulse = -1
  const out: SyncMark[] = input.pulses.map((mark) => {
    if (mark.state !== 'seen') return mark
    pulse += 1
    return held.has(pulse) ? mark : { ...mark, state: 'rejected', why: 'out-of-turn' }
  })
  for (const run of runs) {
    run.pulses.slice(1).forEach((p, i) => {
      const before = places[run.pulses[i]!]!
      const missing = Math.round((places[p]! - before) / cycle) - 1
      for (let m = 1; m <= missing; m++) {
        out.push({
          atS: timeOf(input.timesS, count, before + (m * (places[p]! - before)) / (missing + 1)),
          state: 'bridged',
          why: 'missing',
        })
      }
    })
  }
  return out.sort((a, b) => a.atS - b.atS)
}
