import type { TextKey } from '../texts/messages.ts'

/** What speaks for a column's role, in words. What speaks against one is weighed and not told. */
export const BECAUSE = {
  nothing: 'peek.because.nothing',
  sparks: 'peek.because.sparks',
  dwell: 'peek.because.dwell',
  pulses: 'peek.because.pulses',
  'even-pulses': 'peek.because.even-pulses',
  'quiet-between': 'peek.because.quiet-between',
  'speed-range': 'peek.because.speed-range',
  unit: 'peek.because.unit',
  name: 'peek.because.name',
} as const satisfies Record<string, TextKey>

export type BecauseCode = keyof typeof BECAUSE
