import type { Random } from '../maths/random.ts'

/** A trigger clamp on one cylinder's lead. */
export interface SyncModel {
  cylinder: number
  peakV: number
  /** Time constant of the pulse's decay. */
  decayUs: number
  polarity: 1 | -1
  /** Share of pulses that fail to come. */
  missingShare: number
  /** Stray pulses a second, at random instants. */
  extraPerS: number
}

export const GOOD_SYNC_CLAMP: SyncModel = {
  cylinder: 1,
  peakV: 4.5,
  decayUs: 80,
  polarity: 1,
  missingShare: 0,
  extraPerS: 0,
}

export interface SyncPulse {
  atS: number
  kind: 'true' | 'stray'
}

/** The clamp's own rise. */
const RISE_S = 2e-6

/** Pulses that come: the marked cylinder's breakdowns less the missing, and the strays, in order of time. */
export function drawPulses(
  sync: SyncModel,
  breakdownsS: readonly number[],
  durationS: number,
  random: Random,
): SyncPulse[] {
  const pulses: SyncPulse[] = []
  for (const atS of breakdownsS) if (random.uniform() >= sync.missingShare) pulses.push({ atS, kind: 'true' })
  if (sync.extraPerS > 0) {
    for (let atS = 0; ;) {
      atS -= Math.log(1 - random.uniform()) / sync.extraPerS
      if (atS > durationS) break
      pulses.push({ atS, kind: 'stray' })
    }
  }
  return pulses.sort((a, b) => a.atS - b.atS)
}

/** Voltage of the sync channel without noise, V, shape (samples). */
export function syncV(
  sync: SyncModel,
  pulses: readonly SyncPulse[],
  samples: number,
  sampleS: number,
): Float64Array {
  const out = new Float64Array(samples)
  const decayS = sync.decayUs * 1e-6
  for (const { atS } of pulses) {
    const to = Math.min(Math.ceil((atS + 12 * decayS) / sampleS), samples)
    for (let i = Math.max(Math.ceil(atS / sampleS), 0); i < to; i++) {
      const since = i * sampleS - atS
      out[i] =
        out[i]! + sync.polarity * sync.peakV * (1 - Math.exp(-since / RISE_S)) * Math.exp(-since / decayS)
    }
  }
  return out
}
