import type { EventFlag, EventWave } from './event.ts'
import type { Delineated } from './delineate.ts'

/** A climb of fewer samples than this, top included, may have lost its top between two of them. */
const LEAST_RISE_SAMPLES = 3
/** A spark line counts as clipped when more than this share of its samples stands at the limit. */
const LINE_CLIPPED_SHARE = 0.03
/** The line's start rings when it swings by more than this share of its level, peak to peak, after the firing line. */
const RINGING_SHARE = 0.35
const RINGING_FROM_S = 20e-6
const RINGING_TO_S = 150e-6

/** What is to be said of one event's samples. */
export function eventFlags(event: Delineated, wave: EventWave): EventFlag[] {
  const flags: EventFlag[] = []
  if (atLimit(wave, wave.kv[wave.peak]!)) flags.push('clipped')
  if (event.riseSamples < LEAST_RISE_SAMPLES) flags.push('under_sampled')
  if (event.pick.restrikes.length > 0) flags.push('restrike')
  if (event.partial) flags.push('partial')
  if (lineClipped(wave)) flags.push('line_clipped')
  if (rings(wave)) flags.push('ringing')
  return flags
}

/** Within half a step of the recorder's limit. */
function atLimit({ limitKv, quantumKv }: EventWave, kv: number): boolean {
  return limitKv !== undefined && kv >= limitKv - Math.max(quantumKv / 2, 1e-3 * Math.abs(limitKv))
}

function lineClipped(wave: EventWave): boolean {
  if (wave.sparkEnd === undefined || wave.limitKv === undefined) return false
  const from = Math.ceil(wave.breakdown + RINGING_FROM_S / wave.sampleS)
  const to = Math.floor(wave.sparkEnd)
  let clipped = 0
  for (let i = from; i < to; i++) if (atLimit(wave, wave.kv[i]!)) clipped++
  return to > from && clipped / (to - from) > LINE_CLIPPED_SHARE
}

function rings({ kv, breakdown, sparkEnd, sampleS, noiseKv, quantumKv }: EventWave): boolean {
  if (sparkEnd === undefined) return false
  const from = Math.ceil(breakdown + RINGING_FROM_S / sampleS)
  const to = Math.min(Math.floor(breakdown + RINGING_TO_S / sampleS), Math.floor(sparkEnd))
  let low = Infinity,
    high = -Infinity,
    sum = 0
  for (let i = from; i < to; i++) {
    low = Math.min(low, kv[i]!)
    high = Math.max(high, kv[i]!)
    sum += kv[i]!
  }
  return to > from && high - low > RINGING_SHARE * (sum / (to - from)) + 6 * noiseKv + 2 * quantumKv
}
