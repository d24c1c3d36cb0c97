import type { ComposedEngine } from '../composed/engines.ts'
import type { LogRow } from '../composed/log-rows.ts'
import type { WorkshopCapture } from './job.ts'

/** Engines, rows of the log and captures that jobs written by hand are put together from. */

export const four: ComposedEngine = {
  cylinders: 4,
  firingOrder: [1, 3, 4, 2],
  ignition: 'distributor',
  banks: undefined,
}
export const fourCoils: ComposedEngine = { ...four, ignition: 'coil-per-cylinder' }
export const fourWasted: ComposedEngine = {
  ...four,
  ignition: 'wasted-spark',
  pairs: [
    [1, 4],
    [2, 3],
  ],
}
export const five: ComposedEngine = {
  cylinders: 5,
  firingOrder: [1, 2, 4, 5, 3],
  ignition: 'distributor',
  banks: undefined,
}
export const six: ComposedEngine = {
  cylinders: 6,
  firingOrder: [1, 5, 3, 6, 2, 4],
  ignition: 'distributor',
  banks: undefined,
}
export const vSix: ComposedEngine = {
  cylinders: 6,
  firingOrder: [1, 2, 3, 4, 5, 6],
  ignition: 'distributor',
  banks: { 1: [1, 3, 5], 2: [2, 4, 6] },
}
export const vEight: ComposedEngine = {
  cylinders: 8,
  firingOrder: [1, 8, 4, 3, 6, 5, 7, 2],
  ignition: 'distributor',
  banks: { 1: [1, 3, 5, 7], 2: [2, 4, 6, 8] },
}

export type Row = LogRow
export const code = (at: string, ...codes: string[]): Row[] =>
  codes.map((reading) => ({ at, step: 'code', reading }))
export const trims = (
  at: string,
  condition: string,
  ...banks: readonly (readonly [number, number])[]
): Row[] =>
  banks.flatMap(([short, long], i) =>
    ([`STFT${i + 1}`, `LTFT${i + 1}`] as const).map((reading, k) => ({
      at,
      step: 'trim',
      condition,
      reading,
      value: k === 0 ? short : long,
      unit: '%',
    })),
  )
export const spray = (at: string, place: string, outcome: string, more: Row = {}): Row[] => [
  { at, step: 'spray', place, condition: 'idle', reading: 'starting-fluid', outcome, ...more },
]
export const step = (at: string, name: string, more: Row): Row[] => [{ at, step: name, ...more }]
export const repair = (at: string, place: string, more: Row = {}): Row[] => [
  { at, step: 'repair', place, ...more },
]
export const note = (at: string, words: string): Row[] => [{ at, step: 'note', note: words }]
export const squeeze = (at: string, bars: readonly number[], unit = 'bar'): Row[] =>
  byCylinder(at, 'compression', bars, unit).map((row) => ({ ...row, condition: 'cranking' }))
export const fuel = (
  at: string,
  readings: Readonly<Record<string, number>>,
  limits: readonly [number, number],
): Row[] =>
  Object.entries(readings).map(([reading, value]) => ({
    at,
    step: 'fuel-pressure',
    reading,
    value,
    unit: 'bar',
    expected_low: limits[0],
    expected_high: limits[1],
  }))
export const vacuum = (at: string, value: number): Row[] => [
  {
    at,
    step: 'vacuum',
    condition: 'idle',
    reading: 'manifold',
    value,
    unit: 'inHg',
    expected_low: 17,
    expected_high: 21,
  },
]
export const after = (rows: readonly Row[]): Row[] => rows.map((row) => ({ ...row, stage: 'after' }))

export const found = (
  waves: WorkshopCapture['waves'] = {},
  more: Partial<WorkshopCapture> = {},
): WorkshopCapture => ({ stage: 'before', at: '09:05', waves, ...more })
export const afterwards = (
  waves: WorkshopCapture['waves'] = {},
  more: Partial<WorkshopCapture> = {},
): WorkshopCapture => ({ stage: 'after', at: '12:30', waves, ...more })

export const lean = { latePct: 38 }
export const rich = { latePct: -36, firingKv: 8.6 }
export const leanOn = (...cylinders: number[]) => Object.fromEntries(cylinders.map((c) => [c, lean]))
export const each = <T>(cylinders: readonly number[], verdicts: T): Record<number, T> =>
  Object.fromEntries(cylinders.map((c) => [c, verdicts]))
export const LEAN = ['lean'] as const
export const FALLING = ['falling', 'rich', 'low compression'] as const
export const BAD = ['fault', 'suspected'] as const
/** "Not in order" calms nobody. */
export const CALM = /(?<!not )in order|as (it|they) should|nothing (is )?wrong/i
export const WORKED = /^Yes|\bYes: /

/** A wave without a spark. */
export const open = { openShare: 1 }
/** Rows with the maker's limits. */
export const within = (rows: readonly Row[], expected_low: number, expected_high: number): Row[] =>
  rows.map((row) => ({ ...row, expected_low, expected_high }))
/** One row a cylinder of a step that reads cylinder by cylinder. */
export const byCylinder = (at: string, name: string, values: readonly number[], unit: string): Row[] =>
  values.map((value, i) => ({ at, step: name, reading: `cylinder ${i + 1}`, value, unit }))
