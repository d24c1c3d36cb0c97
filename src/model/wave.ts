import { dwellKv } from './dwell.ts'
import { feltS, waitingKv, type Discharge, type PlugWave } from './discharge.ts'
import { lineKv } from './burn.ts'
import { hashKv, type Hash } from './hash.ts'
import { ringKv } from './ring.ts'

/** The gap collapses in nanoseconds; lead and pickup take this long to follow. */
const COLLAPSE_S = 0.35e-6
/** Rings are followed until they have shrunk to nothing a recorder could show. */
const RING_LENGTHS = 11

/** Last instant at which the discharge still shows, s from switch-off. */
export function waveEndS(discharge: Discharge): number {
  const ring = discharge.ring ?? discharge.rise
  return (discharge.endS ?? 0) + RING_LENGTHS / ring.alphaPerS
}

/** What is left of the firing line and of the lead's own oscillation, `sinceS` after this plug's breakdown. */
function strikeKv(wave: PlugWave, collapseKv: number, sinceS: number): number {
  if (sinceS > 1e-3) return 0
  const { share, kHz, decayUs } = wave.plug.state.strikeRing
  const ring =
    share * collapseKv * Math.exp(-sinceS / (decayUs * 1e-6)) * Math.sin(2 * Math.PI * kHz * 1e3 * sinceS)
  return collapseKv * Math.exp(-sinceS / COLLAPSE_S) - ring
}

/** A plug that has broken down, before and after its neighbour in series has. */
function sparkKv(discharge: Discharge, wave: PlugWave, tS: number): number {
  const waited = waitingKv(wave.plug)
  const { burn, burnFromS } = discharge
  const waits = wave.breakdownS! < burnFromS
  const openingKv = burn === undefined || waits ? waited : lineKv(burn, wave.plug.gap, 0)
  const strike = strikeKv(wave, wave.plug.breakdownKv - openingKv, tS - wave.breakdownS!)
  if (burn === undefined || tS < burnFromS) return waited + strike
  const followKv = waits
    ? (waited - lineKv(burn, wave.plug.gap, 0)) * Math.exp((burnFromS - tS) / COLLAPSE_S)
    : 0
  return lineKv(burn, wave.plug.gap, tS - burnFromS) + followKv + strike
}

/** A plug still holding off the voltage: its share of the coil's, or what a neighbour already sparking leaves it. */
function holdingKv(discharge: Discharge, wave: PlugWave, tS: number): number {
  const coilKv = ringKv(discharge.rise, feltS(discharge.coil, tS))
  const other = discharge.plugs.find((w) => w !== wave)
  if (other?.breakdownS === undefined || tS < other.breakdownS) return coilKv * wave.riseShare
  return coilKv - sparkKv(discharge, other, tS)
}

/**
 * Voltage at one plug's lead without hash, kV, firing line upward.
 *
 * @param tS  from switch-off; before 0 the coil charges
 */
function smoothKv(discharge: Discharge, wave: PlugWave, tS: number): number {
  if (tS < 0)
    return tS < -discharge.dwellS ? 0 : dwellKv(discharge.coil, tS + discharge.dwellS) * wave.riseShare
  const { endS, ring } = discharge
  if (endS !== undefined && ring !== undefined && tS >= endS) return ringKv(ring, tS - endS) * wave.ringShare
  if (wave.breakdownS === undefined || tS < wave.breakdownS) return holdingKv(discharge, wave, tS)
  return sparkKv(discharge, wave, tS)
}

/** The same with the line's hash laid over it. */
export function waveKv(
  discharge: Discharge,
  wave: PlugWave,
  at: { tS: number; hash: Hash | undefined },
): number {
  const smooth = smoothKv(discharge, wave, at.tS)
  const burning =
    at.hash !== undefined &&
    discharge.endS !== undefined &&
    at.tS >= discharge.burnFromS &&
    at.tS < discharge.endS
  return burning ? smooth + hashKv(at.hash!, at.tS - discharge.burnFromS) : smooth
}
