import { problem, type Problem } from '../problems/problem.ts'
import type { ChannelEntry } from '../job/schema.ts'
import type { Channel } from './capture.ts'
import { findClipping, rangeOf, settleMarked } from './clipping.ts'
import type { ChannelColumn } from './columns.ts'
import { smallestStep } from './quantum.ts'

/** Signals that are flat by nature, so that a flat top means nothing. */
const FLAT_BY_NATURE: ReadonlySet<ChannelEntry['carries']> = new Set(['sync', 'speed'])

/**
 * Finishes a decoded channel: quantum, limits, clipped samples; marked samples get the limit they stand for.
 * @param data  shape (rows), base unit; owned by the caller, marked samples are replaced in it
 */
export function finishChannel(column: ChannelColumn, data: Float32Array): Channel {
  const quantum = smallestStep(data)
  const clipping = findClipping(data, {
    declared: declaredLimits(column), step: quantum, inferred: !FLAT_BY_NATURE.has(column.entry.carries),
  })
  settleMarked(data, clipping.limits)
  return { entry: column.entry, data, unit: column.unit, quantum, ...clipping }
}

/** Declared limits are in the file's figures; a negative scale turns them round. */
function declaredLimits({ entry, factor }: ChannelColumn): Channel['limits'] {
  if (!entry.limits) return undefined
  const [a, b] = [entry.limits[0] * factor, entry.limits[1] * factor]
  return a < b ? [a, b] : [b, a]
}

/** A figure that single precision cannot hold after scaling, where no word for clipped samples explains it. */
export function overflowProblem(column: ChannelColumn, data: Float32Array, file: string): Problem | undefined {
  const { marked, low, high } = rangeOf(data)
  const nothing = !(low <= high)
  if (marked === 0 && !nothing) return undefined
  return problem('out-of-range', { file, column: column.index + 1 },
    { column: column.name, found: String(column.factor), count: marked })
}
