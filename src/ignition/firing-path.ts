/** What is known of a row of firings before they are counted. */
export interface FiringRow {
  /** Breakdown instants, s, rising. */
  timesS: readonly number[]
  /** Firings of the engine in one working cycle. */
  cycle: number
  /** By place in the cycle: whether the pickup sees the cylinder that fires there. */
  seen: readonly boolean[]
  /** Sync pulses, s, rising, and the place in the cycle, a fraction, at which they should stand. */
  pulsesS: readonly number[]
  pulseAt: number
}

/** The likeliest count of a row. */
export interface FiringPath {
  /** Minus log likelihood, without its constant. */
  cost: number
  /** By event: firings since the one before; 0 for a second breakdown in the same turn, undefined where the count starts anew. */
  steps: readonly (number | undefined)[]
  /** By event: its place in the cycle, 0 .. cycle - 1. */
  places: readonly number[]
  /** By event: how much costlier the best count is that gives it another place. Worked out when asked for. */
  margins: () => number[]
}

/**
 * What each kind of irregularity costs, in natural logarithms of how much rarer it is than none. This project's
 * judgement: the speed may change by a fifth from firing to firing on a hunting idle, and double at a start.
 */
const COST = {
  /** Of a change of the interval by its natural logarithm x: weight ln(1 + (x / scale)^2). */
  changeWeight: 1.5,
  changeScale: 0.08,
  missed: 4,
  twice: 8,
  unseenPlace: 6,
  /** The count starts anew: samples were lost. */
  anew: 12,
  /** Of a pulse off its place by x firing intervals: half (x / scale)^2, at most this. */
  pulse: 5,
  pulseScale: 0.12,
} as const
/** Paths so much costlier than the best one are given up. */
const GIVEN_UP = 14
/** Fewest firings that may go by between two events. */
const LEAST_MOST_STEPS = 6

/** One way of counting up to an event. */
interface Way {
  cost: number
  place: number
  step: number | undefined
  /** Natural logarithm of the firing interval, s; undefined where the count has just begun. */
  interval: number | undefined
  /** Instant of the last event counted, s. */
  fromS: number
  before: Way | undefined
}

/**
 * Counts firings by the likeliest way through all events and pulses at once: intervals change little from one firing to
 * the next, events are seldom missed, pulses stand at one place in the cycle. Unlike a rounded interval this follows an
 * engine that hunts, starts or is blipped.
 *
 * @source Viterbi 1967, IEEE Transactions on Information Theory 13, 260-269; margins by a pass from either end
 */
export function firingPath(row: FiringRow): FiringPath {
  const forward = passThrough(row)
  const best = cheapest(forward.at(-1) ?? [])
  const ways: Way[] = []
  for (let way = best; way; way = way.before) ways.push(way)
  ways.reverse()
  return {
    cost: best?.cost ?? 0,
    steps: ways.map((w) => w.step),
    places: ways.map((w) => w.place),
    margins: () => {
      const backward = passThrough(mirrored(row)).toReversed()
      return ways.map(({ place }, i) => marginAt(row, { place, ways: forward[i]!, back: backward[i]! }))
    },
  }
}

/** What the likeliest way costs. */
export const pathCost = (row: FiringRow): number => cheapest(passThrough(row).at(-1) ?? [])?.cost ?? 0

/** What it costs at least to give an event another place than this. */
function marginAt(
  { cycle }: FiringRow,
  { place, ways, back }: { place: number; ways: readonly Way[]; back: readonly Way[] },
): number {
  const least = new Array<number>(cycle).fill(Infinity)
  const after = new Array<number>(cycle).fill(Infinity)
  for (const w of ways) least[w.place] = Math.min(least[w.place]!, w.cost)
  for (const w of back) {
    const p = (cycle - w.place) % cycle
    after[p] = Math.min(after[p]!, w.cost)
  }
  const total = least.map((c, p) => c + after[p]!)
  const others = total.filter((_, p) => p !== place)
  return Math.min(GIVEN_UP, Math.min(Infinity, ...others) - total[place]!)
}

/** The row read from its end: places count down. */
function mirrored({ timesS, cycle, seen, pulsesS, pulseAt }: FiringRow): FiringRow {
  return {
    timesS: timesS.map((t) => -t).toReversed(),
    cycle,
    seen: seen.map((_, p) => seen[(cycle - p) % cycle]!),
    pulsesS: pulsesS.map((t) => -t).toReversed(),
    pulseAt: -pulseAt,
  }
}

const cheapest = (ways: readonly Way[]): Way | undefined =>
  ways.reduce<Way | undefined>((best, w) => (best === undefined || w.cost < best.cost ? w : best), undefined)

/** The ways worth keeping at every event. */
function passThrough(row: FiringRow): Way[][] {
  const { timesS, pulsesS, seen } = row
  const most = mostSteps(seen)
  const out: Way[][] = []
  let pulse = 0
  timesS.forEach((atS, i) => {
    const until = pulse
    // Pulses before the first event are weighed with the first interval.
    if (i > 0) while (pulse < pulsesS.length && (pulsesS[pulse]! <= atS || i === timesS.length - 1)) pulse++
    const from = cheapest(out[i - 1] ?? [])
    if (!from) {
      out.push(fresh(row, { atS, cost: 0, before: undefined }))
      return
    }
    const best = new Best()
    for (const way of out[i - 1]!) onward(row, way, { atS, between: pulsesS.slice(until, pulse), most, best })
    for (const way of fresh(row, { atS, cost: from.cost + COST.anew, before: from })) best.take(way)
    out.push(best.kept())
  })
  return out
}

/** The best way to every place by every last step. */
class Best {
  private readonly ways = new Map<number, Way>()
  private least = Infinity

  /** Whether a way of this cost may still be worth taking. */
  hopeful = (cost: number): boolean => cost <= this.least + GIVEN_UP

  take(way: Way): void {
    const key = way.place * 100 + (way.step ?? 99)
    const there = this.ways.get(key)
    if (!there || way.cost < there.cost) this.ways.set(key, way)
    if (way.cost < this.least) this.least = way.cost
  }

  /** Without those hopelessly behind, the cheapest first. */
  kept(): Way[] {
    return [...this.ways.values()].filter((w) => this.hopeful(w.cost)).sort((a, b) => a.cost - b.cost)
  }
}

/** Most firings that may go by between two events: past the longest stretch the pickup does not see, twice over. */
function mostSteps(seen: readonly boolean[]): number {
  const spots = seen.flatMap((s, p) => (s ? [p] : []))
  const widest = Math.max(
    ...spots.map((p, i) => (spots[(i + 1) % spots.length]! - p + seen.length) % seen.length || seen.length),
  )
  return Math.max(LEAST_MOST_STEPS, 2 * widest)
}

/** The count begun at any place the pickup sees. */
const fresh = (
  { seen }: FiringRow,
  { atS, cost, before }: { atS: number; cost: number; before: Way | undefined },
): Way[] =>
  seen.flatMap((s, place) =>
    s ? [{ cost, place, step: undefined, interval: before?.interval, fromS: atS, before }] : [],
  )

/** Every way on from one: no further firing, one, two, ... */
function onward(
  row: FiringRow,
  way: Way,
  { atS, between, most, best }: { atS: number; between: readonly number[]; most: number; best: Best },
): void {
  const gapS = atS - way.fromS
  let missed = 0
  for (let step = 0; step <= most; step++) {
    const place = (way.place + step) % row.cycle
    let cost = way.cost + (step === 0 ? COST.twice : missed * COST.missed)
    // With more firings gone by it only gets costlier.
    if (step > 0 && !best.hopeful(cost)) return
    if (step > 0 && row.seen[place]) missed++
    if (!row.seen[place]) cost += COST.unseenPlace
    const interval = step === 0 ? way.interval : Math.log(gapS / step)
    if (step > 0 && way.interval !== undefined) {
      const change = (interval! - way.interval) / COST.changeScale
      cost += COST.changeWeight * Math.log1p(change * change)
    }
    if (!best.hopeful(cost)) continue
    const firingS = interval === undefined ? gapS : Math.exp(interval)
    for (const pulseS of between) cost += pulseCost(row, way.place, (pulseS - way.fromS) / firingS)
    if (best.hopeful(cost))
      best.take({ cost, place, step, interval, fromS: step === 0 ? way.fromS : atS, before: way })
  }
}

/** @param onward  firings from the event at `place` to the pulse; beyond the ends of the row it soon says nothing */
function pulseCost({ cycle, pulseAt }: FiringRow, place: number, onward: number): number {
  if (onward < -2 * cycle || onward > 3 * cycle) return 0
  const off = wrapped(place + onward - pulseAt, cycle)
  return Math.min(COST.pulse, 0.5 * (off / COST.pulseScale) ** 2)
}

/** A difference of places, by the shorter way about the cycle. */
export const wrapped = (places: number, cycle: number): number => places - cycle * Math.round(places / cycle)
