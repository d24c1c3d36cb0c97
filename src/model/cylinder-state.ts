import type { GapState } from './breakdown.ts'

/** What a cylinder is like: its plug, its gas at ignition, its circuit, and how much each event differs. */
export interface CylinderState {
  /** Name of the condition, for the truth table. */
  condition: string
  gap: GapState
  /** What electrode shape and mixture do to the breakdown voltage, a factor. */
  breakdownFactor: number
  /** Relative standard deviation of the breakdown voltage from event to event. */
  breakdownScatter: number
  /** Gap voltage that the mixture adds by 90 % of the burn, kV: above 0 lean, below 0 rich or low compression. */
  mixtureKv: number
  mixtureScatterKv: number
  /** What the mixture adds from turn to turn besides, each turn like the one before: standard deviation, and correlation with the turn before. */
  mixtureWander?: { kv: number; kept: number }
  /** Relative standard deviation of the glow voltage from event to event. */
  glowScatter: number
  seriesKohm: number
  rotorKv: number
  /** Share of events in which the circuit to the plug is broken: no breakdown at all. */
  openShare: number
  /** Below this the glow cannot hold itself; the lower, the taller the hook at the spark's end. */
  holdA: number
  /** rms of the turbulence hash on the line, kV. */
  turbulenceKv: number
  /** Mean number of restrikes a burn. */
  restrikes: number
  /** Share of events whose spark does not light the charge. */
  misfireShare: number
  /** Share of events for which the driver never switches the coil. */
  noSparkShare: number
  /** Oscillation of lead and pickup just after breakdown: size as a share of the breakdown voltage, and decay. */
  strikeRing: { share: number; kHz: number; decayUs: number }
}

/** Warm idle, 35 kPa in the manifold: about 5 bar and 550 K at the plug when it fires. */
export const IDLE_GAP: GapState = { gapMm: 1, pressureKpa: 500, temperatureK: 550 }

/** Exhaust stroke: little above atmosphere, hot. The wasted spark of a pair jumps here. */
export const EXHAUST_GAP: GapState = { gapMm: 1, pressureKpa: 104, temperatureK: 820 }

export const HEALTHY: CylinderState = {
  condition: 'healthy',
  gap: IDLE_GAP,
  breakdownFactor: 1,
  breakdownScatter: 0.07,
  mixtureKv: 0,
  mixtureScatterKv: 0.05,
  glowScatter: 0.02,
  seriesKohm: 14,
  rotorKv: 0.1,
  openShare: 0,
  holdA: 1.2e-3,
  turbulenceKv: 0.012,
  restrikes: 0,
  misfireShare: 0,
  noSparkShare: 0,
  strikeRing: { share: 0.02, kHz: 220, decayUs: 4 },
}

/** Plug-top coils have no rotor and no lead: only the plug's own resistor. */
export const HEALTHY_PLUG_TOP: CylinderState = { ...HEALTHY, seriesKohm: 10, rotorKv: 0 }

/** Leads of a pair carry resistance, but there is no rotor. */
export const HEALTHY_PAIR: CylinderState = { ...HEALTHY, seriesKohm: 15, rotorKv: 0 }
