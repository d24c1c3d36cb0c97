import type { RecordingPart } from '../parts.ts'
import { duplicate, type Check } from './check.ts'

/** A column of a file is one thing: time, or one channel. */
export const columns: Check = function* ({ recordings }, yaml) {
  for (const recording of recordings) {
    const seen = new Set<string | number>()
    for (const { path, column } of used(recording)) {
      if (seen.has(column)) yield duplicate(yaml, [...path, 'column'], String(column))
      seen.add(column)
    }
  }
}

function used({ path, time, channels }: RecordingPart) {
  const ofTime = time && 'column' in time ? [{ path: [...path, 'time'], column: time.column }] : []
  return [...ofTime, ...channels.map((c) => ({ path: c.path, column: c.entry.column }))]
}
