import { problem } from '../../problems/problem.ts'
import type { JobParts } from '../parts.ts'
import { inconsistent, type Check } from './check.ts'

/** A job closes on or after the day it opens; a calibration ends on or after the day it is made. ISO dates sort as text. */
export const dates: Check = function* ({ opened, closed, instrument }, yaml) {
  if (opened && closed && closed < opened) yield inconsistent(yaml, ['closed'], { expected: `≥ ${opened}` })
  const { date, due } = instrument?.calibration ?? {}
  if (date && due && due < date)
    yield inconsistent(yaml, ['instrument', 'calibration', 'due'], { expected: `≥ ${date}` })
}

/** Warns where a capture was taken after the instrument's calibration had run out; by the day as written, the last one named. */
export const calibration: Check = function* ({ instrument, recordings }, yaml) {
  const due = instrument?.calibration?.due
  if (!due) return
  const late = recordings
    .map((r) => r.taken?.slice(0, 10) ?? '')
    .filter((day) => day > due)
    .sort()
  const taken = late.at(-1)
  if (taken === undefined) return
  const place = yaml.valuePlace(['instrument', 'calibration', 'due'])
  yield problem('calibration-overdue', { ...place, severity: 'warn' }, { due, taken })
}

/** A day before the job was opened or after it was closed; undefined for one within. */
export function outside(
  day: string,
  { opened, closed }: Pick<JobParts, 'opened' | 'closed'>,
): { found: string; opened: string; closed: string } | undefined {
  if (opened !== undefined && closed !== undefined && closed < opened) return undefined // said by itself
  const within = (opened === undefined || day >= opened) && (closed === undefined || day <= closed)
  return within ? undefined : { found: day, opened: opened ?? '', closed: closed ?? '' }
}

/** Warns of recordings of another day than the job's: last year's file, another car's, a recorder whose clock is wrong. */
export const takenWithin: Check = function* (parts, yaml) {
  for (const { path, taken } of parts.recordings) {
    const args = taken === undefined ? undefined : outside(taken.slice(0, 10), parts)
    if (args)
      yield problem('date-outside', { ...yaml.valuePlace([...path, 'taken']), severity: 'warn' }, args)
  }
}
