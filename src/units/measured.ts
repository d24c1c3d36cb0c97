/** Units a figure can carry. `1` is a pure number. */
export type Unit =
  | 'kV'
  | 'kV/ms'
  | 'ms'
  | 's'
  | '%'
  | 'rpm'
  | 'kHz'
  | 'Hz'
  | 'cycles'
  | '1'
  | 'mJ'
  | 'kPa'
  | 'g/s'
  | 'mm'
  | 'mm2'
  | '%vol'
  | 'ppm'
  | 'degC'
  | 'V'
  | 'A'
  | 'lambda'

/** Why a figure is not there. Absence is a case of its own, never 0 or NaN. */
export type AbsenceCode =
  | 'too-short' // too few samples between breakdown and spark end
  | 'no-spark-line' // nothing burns after the breakdown
  | 'clipped' // the recorder's limit hides it
  | 'under-sampled' // the sample rate cannot show it
  | 'partial' // cut by the edge of the file
  | 'not-recorded' // no channel or coil data shows it
  | 'no-next-event' // needs a following event of the same cylinder
  | 'not-visible' // lost in noise or ringing
  | 'too-few-events' // a summary needs more events
  | 'ratio-unknown' // volts of a pickup whose ratio is not stated are no kV
  | 'not-applicable' // has no meaning for this kind of event

/** One measured value with its standard uncertainty u (k = 1), both in `unit`; or the reason there is none. */
export type Measured<U extends Unit> =
  { ok: true; value: number; u: number; unit: U } | { ok: false; why: AbsenceCode }

/** A value with the ends of its 95 % interval, all in `unit`. */
export interface Interval<U extends Unit = Unit> {
  value: number
  low: number
  high: number
  unit: U
}

/** A present value. */
export const measured = <U extends Unit>(value: number, u: number, unit: U): Measured<U> => ({
  ok: true,
  value,
  u,
  unit,
})

/** An absent value and its reason. */
export const absent = (why: AbsenceCode): { ok: false; why: AbsenceCode } => ({ ok: false, why })
