import type { Unit } from '../units/measured.ts'

/** Expanded uncertainties (k = 2) of recorder and pickup, as stated in job.yaml or by default. */
export interface Instrument {
  voltageUncertaintyPercent: number
  timeUncertaintyPpm: number
}

/** How a unit feels the instrument: an error of gain, an error of clock, or neither (ratios and counts). */
const FEELS: Partial<Record<Unit, 'gain' | 'clock' | 'both'>> = {
  kV: 'gain',
  mJ: 'gain',
  'kV/ms': 'both',
  ms: 'clock',
  s: 'clock',
  rpm: 'clock',
  kHz: 'clock',
  Hz: 'clock',
}

/**
 * Standard uncertainty (k = 1) that the instrument leaves in a figure, in the figure's unit. A voltage error is taken
 * as one of gain: the level before each event is taken off, so that a zero error is not in the figures, and ratios of
 * voltages are free of it.
 * @source JCGM 100:2008, 4.3.3 (stated expanded uncertainty divided by its factor)
 */
export function instrumentU(value: number, unit: Unit, instrument: Instrument): number {
  const feels = FEELS[unit]
  const gain = feels === 'gain' || feels === 'both' ? instrument.voltageUncertaintyPercent / 100 / 2 : 0
  const clock = feels === 'clock' || feels === 'both' ? instrument.timeUncertaintyPpm / 1e6 / 2 : 0
  return Math.abs(value) * Math.hypot(gain, clock)
}
