import { problem } from '../../problems/problem.ts'
import { inconsistent, type Check } from './check.ts'

/** A job closes on or after the day it opens; a calibration ends on or after the day it is made. ISO dates sort as text. */
export const dates: Check = function* ({ opened, closed, instrument }, yaml) {
  if (opened && closed && closed < opened) yield inconsistent(yaml, ['closed'], { expected: `≥ ${opened}` })
  const { date, due } = instrument?.calibration ?? {}
  if (date && due && due < date) yield inconsistent(yaml, ['instrument', 'calibration', 'due'], { expected: `≥ ${date}` })
}

/** Warns where a capture was taken after the instrument's calibration had run out; by the day as written, the last one named. */
export const calibration: Check = function* ({ instrument, recordings }, yaml) {
  const due = instrument?.calibration?.due
  if (!due) return
  const late = recordings.map((r) => r.taken?.slice(0, 10) ?? '').filter((day) => day > due).sort()
  const taken = late.at(-1)
  if (taken === undefined) return
  const place = yaml.valuePlace(['instrument', 'calibration', 'due'])
  yield problem('calibration-overdue', { ...place, severity: 'warn' }, { due, taken })
}
