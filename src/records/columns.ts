import type { FigureName } from '../metrics/figures.ts'

/** Record columns of the figures: the contract's snake_case, and the decimals that carry meaning. */
export const FIGURE_COLUMNS = {
  firingKv: { column: 'firing_kv', decimals: 3 },
  burnMs: { column: 'burn_ms', decimals: 4 },
  startKv: { column: 'start_kv', decimals: 4 },
  midKv: { column: 'mid_kv', decimals: 4 },
  lateKv: { column: 'late_kv', decimals: 4 },
  lateRiseKv: { column: 'late_rise_kv', decimals: 4 },
  lateRisePct: { column: 'late_rise_pct', decimals: 2 },
  earlyChangeKv: { column: 'early_change_kv', decimals: 4 },
  earlySlopeKvPerMs: { column: 'early_slope_kv_per_ms', decimals: 4 },
  lateSlopeKvPerMs: { column: 'late_slope_kv_per_ms', decimals: 4 },
  roughnessKv: { column: 'roughness_kv', decimals: 4 },
  energyMj: { column: 'energy_mj', decimals: 2 },
  coilCycles: { column: 'coil_cycles', decimals: 1 },
  coilKhz: { column: 'coil_khz', decimals: 3 },
  damping: { column: 'damping', decimals: 3 },
  dwellMs: { column: 'dwell_ms', decimals: 3 },
  rpm: { column: 'rpm', decimals: 1 },
} as const satisfies Record<FigureName, { column: string; decimals: number }>

/** Figures of events.csv, in the contract's order. */
export const EVENT_FIGURES = [
  'firingKv',
  'burnMs',
  'startKv',
  'midKv',
  'lateKv',
  'lateRiseKv',
  'lateRisePct',
  'earlyChangeKv',
  'earlySlopeKvPerMs',
  'lateSlopeKvPerMs',
  'roughnessKv',
  'coilCycles',
  'coilKhz',
  'damping',
  'dwellMs',
  'rpm',
] as const satisfies readonly FigureName[]

/** Columns of cylinders.csv after the counts, in the contract's order; `interval` adds `_low` and `_high`. */
export const CYLINDER_FIGURES = [
  { figure: 'firingKv', interval: true },
  { figure: 'burnMs', interval: true },
  { figure: 'startKv', interval: false },
  { figure: 'midKv', interval: false },
  { figure: 'lateRisePct', interval: true },
  { figure: 'earlySlopeKvPerMs', interval: false },
  { figure: 'lateSlopeKvPerMs', interval: false },
  { figure: 'roughnessKv', interval: false },
  { figure: 'coilCycles', interval: false },
] as const satisfies readonly { figure: FigureName; interval: boolean }[]
