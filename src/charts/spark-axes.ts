import type { DrawnCylinder } from '../records/drawn-traces.ts'
import { niceAxis, type Axis } from './nice-ticks.ts'

/** Room over the highest mark. The firing line is several times taller and leaves through the top; it has a chart of its own. */
const HEADROOM = 1.5

/** Share of the height given to the coil's ringing below zero; deeper swings leave through the foot. */
const FOOTROOM = 0.25

const lowest = (values: readonly number[]): number => values.reduce((least, v) => Math.min(least, v), 0)
const highest = (values: readonly number[]): number => values.reduce((most, v) => Math.max(most, v), 0)

/** Axes that all the given spark lines share, so that they can be compared: ms from breakdown, kV. */
export function sparkAxes(drawn: readonly DrawnCylinder[]): { x: Axis; y: Axis } {
  const marks = drawn.flatMap((d) => d.marks.map((m) => m.kv))
  const lines = drawn.flatMap((d) => d.median.y)
  const top = marks.length > 0 ? highest(marks) * HEADROOM : highest(lines)
  const end = highest(drawn.flatMap((d) => d.median.x))
  return {
    x: niceAxis(0, end, { most: 4, snug: true }),
    y: niceAxis(Math.max(lowest(lines), -FOOTROOM * top), top, { most: 5 }),
  }
}
