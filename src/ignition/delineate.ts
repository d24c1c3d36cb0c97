import { median } from '../maths/median.ts'
import type { Blocks } from './blocks.ts'
import { breakdownInstant } from './breakdown-instant.ts'
import { dwellStart } from './dwell-start.ts'
import type { EndSamples } from './end-costs.ts'
import type { Pick } from './pick-breakdowns.ts'
import type { SampleRange } from './event.ts'
import { fitRingModel, ringFitter, type RingFit, type RingModel } from './ring-model.ts'
import { samplesIn, upright, type Signal } from './signal.ts'
import { sparkEnds } from './spark-end.ts'
import { stretchAt, type Walls } from './walls.ts'

/** One event with its instants, as fractional samples of the record, and levels in kV as recorded (upright). */
export interface Delineated {
  pick: Pick
  breakdown: number
  peak: number
  riseSamples: number
  sparkEnd: number | undefined
  dwellStart: number | undefined
  restKv: number
  /** Sample about which the rest was taken; undefined where it is the channel's own near by. */
  restAt: number | undefined
  /** The record ends too soon to show the end and the ring behind it, or begins too late to show the rest before it. */
  partial: boolean
}

/** What the recorder adds to a channel. */
export interface Recorder {
  noiseKv: number
  quantumKv: number
  limitKv: number | undefined
}

/** How the coil of a channel rings, and how to lay that through a cycle of samples. */
interface Ring {
  cycleS: number
  fit: (kv: Float64Array) => RingFit | undefined
}

/** Spark line kept before the flank, and ring kept after it. */
const LINE_KEPT_S = 0.6e-3
const RING_KEPT_S = 2.5e-3
/** Without this much of the ring after the end, the end cannot be told from a dip of the line. */
const LEAST_AFTER_S = 0.3e-3
const LEAST_BEFORE_S = 0.1e-3
/** Rest taken before dwell start, and the gap kept from it. */
const REST_S = 0.8e-3
const REST_GAP_S = 0.04e-3
/** A coil has rung out this long after the spark's end, so that rest may be taken. */
const RUNG_OUT_S = 1.5e-3

/** Places the instants of every pick of a channel; the spark's ends all together, since they share one coil. */
export function delineate(
  signal: Signal,
  blocks: Blocks,
  picks: readonly Pick[],
  { recorder, walls }: { recorder: Recorder; walls: Walls },
): Delineated[] {
  const { size, blockS } = blocks
  const stretches = picks.map(({ peak }) => stretchAt(walls, peak * size, signal.data.length))
  // First block and sample after each event's predecessor and its ring's first swings.
  const free = picks.map((_, i) => {
    const previous = picks[i - 1]
    const wall = Math.ceil(stretches[i]!.from / size)
    const past = previous ? (previous.end ?? previous.peak) + Math.round(LEAST_AFTER_S / blockS) : 0
    return Math.max(wall, past)
  })
  const dwells = picks.map((pick, i) =>
    dwellStart(blocks, signal, {
      at: pick.peak,
      from: free[i]!,
      stepKv: pick.lineKv - pick.beforeKv,
      noiseKv: recorder.noiseKv,
    }),
  )
  const starts = picks.map((pick, i) => dwells[i] ?? pick.top * size)
  const { ends, model } = placeEnds(signal, blocks, { picks, starts, stretches, recorder })
  const ring = model && {
    cycleS: (2 * Math.PI) / model.omega,
    fit: ringFitter(model, { sampleS: signal.sampleS, cycles: 1 }),
  }
  return picks.map((pick, i) =>
    place(signal, size, {
      pick,
      sparkEnd: ends[i],
      dwell: dwells[i],
      free: free[i]! * size,
      stretch: stretches[i]!,
      isFirst: i === 0 || picks[i - 1]!.peak * size < stretches[i]!.from,
      ring,
      recorder,
    }),
  )
}

interface Placed {
  pick: Pick
  sparkEnd: number | undefined
  dwell: number | undefined
  /** First sample clear of the event before. */
  free: number
  /** What lies between two jumps of the clock, or between the ends of the record. */
  stretch: SampleRange
  /** No event before it in its stretch, whose ring would still have to die away. */
  isFirst: boolean
  ring: Ring | undefined
  recorder: Recorder
}

function place(
  signal: Signal,
  size: number,
  { pick, sparkEnd, dwell, free, isFirst, stretch, ring, recorder }: Placed,
): Delineated {
  const { sampleS } = signal
  const from = Math.max(stretch.from, (pick.top - 2) * size)
  const { noiseKv, limitKv } = recorder
  const kv = upright(signal, from, (pick.peak + 2) * size)
  const found = breakdownInstant(kv, {
    beforeKv: pick.beforeKv,
    lineKv: pick.line ? pick.lineKv : undefined,
    noiseKv,
    limitKv,
  })
  const breakdown = from + found.at
  const seenTo = sparkEnd ?? (pick.end === undefined ? stretch.to : pick.end * size)
  return {
    pick,
    breakdown,
    peak: from + found.peak,
    riseSamples: found.riseSamples,
    sparkEnd,
    dwellStart: dwell,
    ...restLevel(signal, { dwell, free, isFirst, stretch, pick, ring }),
    partial:
      pick.cut ||
      stretch.to - seenTo < LEAST_AFTER_S / sampleS ||
      breakdown - stretch.from < LEAST_BEFORE_S / sampleS,
  }
}

/**
 * Level before dwell start. Where the coil still rings then, the level its last whole cycle rings about; where dwell is
 * not seen, the channel's own rest near by.
 */
function restLevel(
  signal: Signal,
  { dwell, free, isFirst, stretch, pick, ring }: Omit<Placed, 'sparkEnd' | 'recorder'>,
): { restKv: number; restAt: number | undefined } {
  if (dwell === undefined) return { restKv: pick.quietKv, restAt: undefined }
  const { sampleS } = signal
  const to = Math.floor(dwell - REST_GAP_S / sampleS)
  const rungOut = isFirst ? stretch.from : free + samplesIn(RUNG_OUT_S, sampleS)
  const from = Math.max(to - samplesIn(REST_S, sampleS), rungOut)
  if (to - from >= samplesIn(REST_GAP_S, sampleS)) {
    return { restKv: settledMean(upright(signal, from, to)), restAt: (from + to) / 2 }
  }
  const cycle = ring === undefined ? Infinity : Math.round(ring.cycleS / sampleS)
  const fit = to - cycle < free ? undefined : ring?.fit(upright(signal, to - cycle, to))
  if (!fit) return { restKv: pick.quietKv, restAt: undefined }
  return { restKv: fit.restAt((cycle / 2) * sampleS), restAt: to - cycle / 2 }
}

/**
 * Mean of the values near their median: finer than the median where the recorder's steps are coarse, and as deaf to
 * a stray spike.
 */
function settledMean(kv: Float64Array): number {
  const middle = median(kv)!
  const off = median(kv.map((v) => Math.abs(v - middle)))!
  const step = kv.reduce(
    (least, v) => (v !== middle ? Math.min(least, Math.abs(v - middle)) : least),
    Infinity,
  )
  const reach = Math.max(6 * off, 1.5 * step)
  let sum = 0
  let count = 0
  for (const v of kv) {
    if (Math.abs(v - middle) > reach) continue
    sum += v
    count++
  }
  return sum / count
}

/**
 * Spark ends as fractional samples of the record, undefined without a spark line or where the record cuts it; and how
 * the coil rings, where it does.
 */
function placeEnds(
  signal: Signal,
  blocks: Blocks,
  {
    picks,
    starts,
    stretches,
    recorder: { noiseKv, quantumKv },
  }: {
    picks: readonly Pick[]
    starts: readonly number[]
    stretches: readonly SampleRange[]
    recorder: Recorder
  },
): { ends: (number | undefined)[]; model: RingModel | undefined } {
  const { sampleS, data } = signal
  const lines = picks.flatMap((pick, i) => {
    if (!pick.line || pick.end === undefined) return []
    const flankAt = pick.end * blocks.size
    const from = Math.max((pick.peak + 2) * blocks.size, flankAt - samplesIn(LINE_KEPT_S, sampleS))
    const wall = stretches[i]!.to
    const follows = starts[i + 1]
    const next =
      follows !== undefined && follows < wall
        ? Math.floor(follows) - samplesIn(REST_GAP_S, sampleS)
        : wall === data.length
          ? wall - samplesIn(REST_GAP_S, sampleS)
          : wall
    const to = Math.min(flankAt + samplesIn(RING_KEPT_S, sampleS), Math.max(next, flankAt))
    const heightKv = pick.lineKv - pick.quietKv
    const samples: EndSamples = {
      kv: upright(signal, from, to),
      sampleS,
      flank: flankAt - from,
      restKv: pick.quietKv,
      noiseKv: Math.hypot(noiseKv, quantumKv / Math.sqrt(12)),
    }
    return [{ i, from, samples, heightKv }]
  })
  const rings = lines.map((l) => ({
    kv: l.samples.kv.subarray(l.samples.flank),
    sampleS: signal.sampleS,
    lineKv: l.heightKv,
  }))
  const model = fitRingModel(rings)
  const fitted = model
    ? sparkEnds(
        lines.map((l) => l.samples),
        model,
      )
    : []
  const ends = new Array<number | undefined>(picks.length).fill(undefined)
  lines.forEach((l, n) => {
    ends[l.i] = l.from + (fitted[n] ?? leavesLine(l.samples, l.heightKv, noiseKv))
  })
  return { ends, model }
}

/** Where no ring follows: the last sample still at the height of the line before the flank. */
function leavesLine({ kv, sampleS, flank }: EndSamples, heightKv: number, noiseKv: number): number {
  const near = samplesIn(0.1e-3, sampleS)
  const level = median(kv.subarray(Math.max(0, flank - 3 * near), Math.max(1, flank - near))) ?? kv[0]!
  const least = level - Math.max(4 * noiseKv, 0.06 * heightKv)
  let at = Math.max(0, Math.min(flank, kv.length - 1))
  while (at > 0 && kv[at]! < least) at--
  return at + 0.5
}
