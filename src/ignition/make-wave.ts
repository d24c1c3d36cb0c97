import { undoDroop, type Droop } from './droop.ts'
import type { EventWave } from './event.ts'
import type { Delineated, Recorder } from './delineate.ts'
import type { Hum } from './hum.ts'
import { noiseSd } from './quiet-level.ts'
import { samplesIn, upright, type Signal } from './signal.ts'

/** Kept before dwell start, and before the breakdown where dwell is not seen. */
const BEFORE_DWELL_S = 0.3e-3
const BEFORE_BREAKDOWN_S = 1.5e-3
/** Dwell longer than this is left out of the samples (its start is then a negative index): only its length matters. */
const LONGEST_KEPT_DWELL_S = 5e-3
/** Kept after the spark's end: eight cycles of a slow coil. */
const AFTER_END_S = 3.2e-3
/** Kept after the breakdown where the end is not known. */
const AFTER_BREAKDOWN_S = 5e-3
/** Fewest samples of rest from which an event's own noise is taken. */
const LEAST_NOISE_SAMPLES = 32

/**
 * Cuts one event out of the record, above its own rest, hum taken off and droop undone.
 *
 * @param start   first sample of the stretch between two jumps of the clock
 * @param before  end of the event before, after: start of the one that follows, as samples of the record
 */
export function makeWave(
  signal: Signal,
  event: Delineated,
  {
    recorder,
    hum,
    droop,
    start,
    before,
    after,
    ratioUnknown = false,
  }: {
    recorder: Recorder
    hum: Hum | undefined
    droop: Droop | undefined
    start: number
    before: number
    after: number
    ratioUnknown?: boolean
  },
): EventWave {
  const { sampleS } = signal
  const near = event.breakdown - samplesIn(BEFORE_BREAKDOWN_S, sampleS)
  const dwell =
    event.dwellStart === undefined
      ? near
      : Math.min(near, event.dwellStart - samplesIn(BEFORE_DWELL_S, sampleS))
  const earliest = event.breakdown - samplesIn(LONGEST_KEPT_DWELL_S, sampleS)
  const from = Math.max(start, Math.floor(Math.max(dwell, earliest, Math.min(before, near))))
  const last =
    event.sparkEnd === undefined
      ? event.breakdown + samplesIn(AFTER_BREAKDOWN_S, sampleS)
      : event.sparkEnd + samplesIn(AFTER_END_S, sampleS)
  const kv = upright(signal, from, Math.ceil(Math.min(last, after)))
  const { restAt, restKv } = event
  if (droop && droop.perS > 0 && restAt !== undefined) undoDroop(kv, droop, { restAt, restKv, from, sampleS })
  const atRest = hum && event.restAt !== undefined ? hum.at(event.restAt) : 0
  for (let i = 0; i < kv.length; i++) kv[i]! -= event.restKv + (hum ? hum.at(from + i) - atRest : 0)
  const local = (at: number | undefined): number | undefined => (at === undefined ? undefined : at - from)
  return {
    kv,
    sampleS,
    breakdown: event.breakdown - from,
    peak: event.peak - from,
    sparkEnd: local(event.sparkEnd),
    dwellStart: local(event.dwellStart),
    baselineKv: event.restKv,
    noiseKv: eventNoise(signal, event, recorder),
    quantumKv: recorder.quantumKv,
    ...(droop && { droop: { down: droop.perS - droop.low, up: droop.high - droop.perS } }),
    ...(ratioUnknown && { ratioUnknown }),
    limitKv: recorder.limitKv === undefined ? undefined : recorder.limitKv - event.restKv,
  }
}

/** Noise of the rest before this event's dwell; the channel's where too little of it shows. */
function eventNoise(signal: Signal, { dwellStart }: Delineated, { noiseKv }: Recorder): number {
  if (dwellStart === undefined) return noiseKv
  const to = Math.floor(dwellStart) - 2
  const rest = upright(signal, to - samplesIn(BEFORE_DWELL_S, signal.sampleS), to)
  return rest.length < LEAST_NOISE_SAMPLES ? noiseKv : noiseSd(rest)
}
