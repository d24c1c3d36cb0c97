import { gapEnergyMj, lineKv } from './burn.ts'
import { capacitorEndS } from './capacitor-discharge.ts'
import { waitingKv } from './discharge.ts'
import type { CapacitorEvent, InductiveEvent } from './ignition.ts'
import { burnLevels, type BurnLevels } from './levels.ts'
import { firstExtremeS, ringKv, visibleCycles, type Ring } from './ring.ts'
import { waveEndS } from './wave.ts'

/** Capacitor: the short oscillating spark of a capacitor-discharge system, whose line has no levels to state. */
type Outcome = 'burns' | 'misfires' | 'no-breakdown' | 'open' | 'capacitor'

/** What truly happened in one event as one pickup sees it. Times on the capture's own clock, s; kV upright, at the pickup. */
export interface EventTruth {
  /** Index into SimulatedCapture.channels. */
  channel: number
  cylinder: number
  kind: 'firing' | 'wasted'
  outcome: Outcome
  condition: string
  /** 0 for the first spark of an ignition. */
  strike: number
  dwellStartS: number
  dwellMs: number
  switchOffS: number
  /** Instant of the firing line's peak: the breakdown, or the crest where nothing breaks down. */
  breakdownS: number
  endS: number | undefined
  firingKv: number
  /** Largest noise-free sample of the firing line: the rest was lost between samples. Undefined outside the file. */
  peakSampledKv: number | undefined
  /** Undefined where nothing burns. */
  levels: BurnLevels | undefined
  /** Electrical energy into the gaps seen, mJ. */
  energyMj: number | undefined
  /** Half cycles of more than 0.3 kV from crest to trough, halved. */
  coilCycles: number
  coilKhz: number
  /** Logarithmic decrement, a cycle. */
  damping: number
  /** From this cylinder's next ignition of the same kind within the file. */
  rpm: number | undefined
  restrikesS: readonly number[]
  /** From dwell start to the end of the ring inside the file. */
  complete: boolean
}

/** Smallest swing counted as an oscillation, kV. Our choice: what a good recorder shows clearly. */
const VISIBLE_SWING_KV = 0.3

const scaled = (ring: Ring, share: number): Ring => ({
  ...ring,
  cosKv: ring.cosKv * share,
  sinKv: ring.sinKv * share,
})

function outcomeOf(event: InductiveEvent, plug: number): Outcome {
  const wave = event.discharge.plugs[plug]!
  if (wave.plug.open) return 'open'
  if (event.discharge.burn === undefined) return 'no-breakdown'
  return wave.plug.lit ? 'burns' : 'misfires'
}

/** Peak of the voltage over the plugs seen and when it comes, s from switch-off. */
function peakOf(event: InductiveEvent, plugs: readonly number[]): { kv: number; tS: number } {
  const { discharge } = event
  const waves = plugs.map((p) => discharge.plugs[p]!)
  if (discharge.burn === undefined) {
    const share = waves.reduce((sum, w) => sum + w.riseShare, 0)
    const crestS = firstExtremeS(discharge.rise)
    return {
      kv: share * ringKv(discharge.rise, crestS),
      tS: crestS + (discharge.coil.switchOffUs * 1e-6) / 2,
    }
  }
  const last = waves.reduce((a, b) => (b.breakdownS! > a.breakdownS! ? b : a))
  const others = waves.filter((w) => w !== last)
  return {
    kv: last.plug.breakdownKv + others.reduce((sum, w) => sum + waitingKv(w.plug), 0),
    tS: last.breakdownS!,
  }
}

/**
 * Truth of one event for a pickup that sees one plug, or both plugs of a pair in series.
 *
 * @param plugs      indices into event.discharge.plugs
 * @param durationS  of the file
 */
export function eventTruth(
  event: InductiveEvent,
  plugs: readonly number[],
  channel: number,
  durationS: number,
): EventTruth {
  const { discharge, atS } = event
  const { burn } = discharge
  const waves = plugs.map((p) => discharge.plugs[p]!)
  const main = waves[0]!
  const peak = peakOf(event, plugs)
  // A wasted plug breaks down a little before the burn through both starts.
  const leadS = discharge.burnFromS - peak.tS
  const seen = (tS: number): number =>
    waves.reduce((sum, w) => sum + lineKv(burn!, w.plug.gap, tS - leadS), 0)
  const share = waves.reduce((sum, w) => sum + w.ringShare, 0)
  const ring = scaled(discharge.ring ?? discharge.rise, share)
  const breakdownS = atS + peak.tS
  return {
    channel,
    cylinder: main.plug.cylinder,
    kind: plugs[0] === 0 ? 'firing' : 'wasted',
    outcome: outcomeOf(event, plugs[0]!),
    condition: main.plug.state.condition,
    strike: event.strike,
    dwellStartS: atS - discharge.dwellS,
    dwellMs: discharge.dwellS * 1e3,
    switchOffS: atS,
    breakdownS,
    endS: discharge.endS === undefined ? undefined : atS + discharge.endS,
    firingKv: peak.kv,
    peakSampledKv: undefined,
    levels: burn === undefined ? undefined : burnLevels(seen, leadS + burn.burnS),
    energyMj:
      burn === undefined ? undefined : waves.reduce((sum, w) => sum + gapEnergyMj(burn, w.plug.gap), 0),
    coilCycles: visibleCycles(ring, VISIBLE_SWING_KV),
    coilKhz: ring.radPerS / (2e3 * Math.PI),
    damping: discharge.coil.decrement,
    rpm: undefined,
    restrikesS: burn === undefined ? [] : main.plug.restrikeShares.map((s) => breakdownS + s * burn.burnS),
    complete: atS - discharge.dwellS >= 0 && atS + waveEndS(discharge) <= durationS,
  }
}

/** Truth of a capacitor-discharge spark: when and how tall; it has no level line, dwell or coil ring. */
export function capacitorTruth(event: CapacitorEvent, channel: number, durationS: number): EventTruth {
  const { plug, burnS, unit } = event.spark
  const breakdownS = event.atS + unit.riseUs * 1e-6
  return {
    channel,
    cylinder: plug.cylinder,
    kind: 'firing',
    outcome: 'capacitor',
    condition: plug.state.condition,
    strike: 0,
    dwellStartS: event.atS,
    dwellMs: 0,
    switchOffS: event.atS,
    breakdownS,
    endS: breakdownS + burnS,
    firingKv: plug.breakdownKv,
    peakSampledKv: undefined,
    levels: undefined,
    energyMj: undefined,
    coilCycles: 0,
    coilKhz: unit.ringKhz,
    damping: 0,
    rpm: undefined,
    restrikesS: [],
    complete: event.atS >= 0 && event.atS + capacitorEndS(event.spark) <= durationS,
  }
}
