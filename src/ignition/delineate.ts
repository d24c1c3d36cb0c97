import { median } from '../maths/median.ts'
import type { Blocks } from './blocks.ts'
import { breakdownInstant } from './breakdown-instant.ts'
import { dwellStart } from './dwell-start.ts'
import type { Pick } from './pick-breakdowns.ts'
import { fitRingModel } from './ring-model.ts'
import { samplesIn, upright, type Signal } from './signal.ts'
import { sparkEnds, type EndSamples } from './spark-end.ts'

/** One event with its instants, as fractional samples of the record, and levels in kV as recorded (upright). */
export interface Delineated {
  pick: Pick
  breakdown: number
  peak: number
  riseSamples: number
  sparkEnd: number | undefined
  dwellStart: number | undefined
  restKv: number
  /** The record ends too soon to show the end and the ring behind it, or begins too late to show the rest before it. */
  partial: boolean
}

/** What the recorder adds to a channel. */
export interface Recorder { noiseKv: number; quantumKv: number; limitKv: number | undefined }

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
export function delineate(signal: Signal, blocks: Blocks, picks: readonly Pick[], recorder: Recorder): Delineated[] {
  const ends = placeEnds(signal, blocks, picks, recorder)
  return picks.map((pick, i) => {
    const previous = picks[i - 1]
    const free = previous ? (previous.end ?? previous.peak) + Math.round(LEAST_AFTER_S / blocks.blockS) : 0
    return place(signal, blocks, { pick, sparkEnd: ends[i], free, recorder })
  })
}

function place(
  signal: Signal, blocks: Blocks,
  { pick, sparkEnd, free, recorder }: { pick: Pick; sparkEnd: number | undefined; free: number; recorder: Recorder },
): Delineated {
  const { size } = blocks
  const { data, sampleS } = signal
  const from = Math.max(0, (pick.top - 2) * size)
  const { noiseKv, limitKv } = recorder
  const kv = upright(signal, from, (pick.peak + 2) * size)
  const levels = { beforeKv: pick.beforeKv, lineKv: pick.line ? pick.lineKv : undefined, noiseKv, limitKv }
  const found = breakdownInstant(kv, levels)
  const breakdown = from + found.at
  const dwell = dwellStart(blocks, signal, { at: pick.peak, from: free, stepKv: pick.lineKv - pick.beforeKv, noiseKv })
  const seenTo = sparkEnd ?? (pick.end === undefined ? data.length : pick.end * size)
  return {
    pick, breakdown, peak: from + found.peak, riseSamples: found.riseSamples, sparkEnd, dwellStart: dwell,
    restKv: restLevel(signal, { dwell, free: free * size, pick }),
    partial: pick.cut || data.length - seenTo < LEAST_AFTER_S / sampleS || breakdown < LEAST_BEFORE_S / sampleS,
  }
}

/** Level before dwell start; where that is not seen, the channel's own rest near by. */
function restLevel(signal: Signal, { dwell, free, pick }: { dwell: number | undefined; free: number; pick: Pick }): number {
  if (dwell === undefined) return pick.quietKv
  const { sampleS } = signal
  const to = Math.floor(dwell - REST_GAP_S / sampleS)
  const from = Math.max(to - samplesIn(REST_S, sampleS), free === 0 ? 0 : free + samplesIn(RUNG_OUT_S, sampleS))
  if (to - from < samplesIn(REST_GAP_S, sampleS)) return pick.quietKv
  return median(upright(signal, from, to)) ?? pick.quietKv
}

/** Spark ends as fractional samples of the record; undefined without a spark line or where the record cuts it. */
function placeEnds(signal: Signal, blocks: Blocks, picks: readonly Pick[], { noiseKv }: Recorder): (number | undefined)[] {
  const lines = picks.flatMap((pick, i) => {
    if (!pick.line || pick.end === undefined) return []
    const flankAt = pick.end * blocks.size
    const from = Math.max((pick.peak + 2) * blocks.size, flankAt - samplesIn(LINE_KEPT_S, signal.sampleS))
    const to = flankAt + samplesIn(RING_KEPT_S, signal.sampleS)
    const samples: EndSamples = { kv: upright(signal, from, to), sampleS: signal.sampleS, flank: flankAt - from }
    return [{ i, from, samples, heightKv: pick.lineKv - pick.quietKv }]
  })
  const rings = lines.map((l) => ({ kv: l.samples.kv.subarray(l.samples.flank), sampleS: signal.sampleS, lineKv: l.heightKv }))
  const model = fitRingModel(rings)
  const fitted = model ? sparkEnds(lines.map((l) => l.samples), model) : []
  const ends = new Array<number | undefined>(picks.length).fill(undefined)
  lines.forEach((l, n) => { ends[l.i] = l.from + (fitted[n] ?? leavesLine(l.samples, l.heightKv, noiseKv)) })
  return ends
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
