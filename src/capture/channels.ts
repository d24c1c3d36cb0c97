import { problem, type Problem } from '../problems/problem.ts'
import type { ChannelEntry } from '../job/schema.ts'
import type { Channel } from './capture.ts'
import { findClipping, settleMarked } from './clipping.ts'
import type { ValueRange } from './collect.ts'
import type { ChannelColumn } from './columns.ts'
import { smallestStep } from './quantum.ts'

/** Signals that are flat by nature, so that a flat top means nothing. */
const FLAT_BY_NATURE: ReadonlySet<ChannelEntry['carries']> = new Set(['sync', 'speed'])

/**
 * Finishes a decoded channel: quantum, limits, clipped samples; marked samples get the limit they stand for.
 * @param data  shape (rows), base unit; owned by the caller, marked samples are replaced in it
 */
export function finishChannel(column: ChannelColumn, data: Float32Array, range: ValueRange): Channel {
  const quantum = smallestStep(data)
  const clipping = findClipping(data, {
    range: asStored(range),
    declared: declaredLimits(column),
    step: quantum,
    inferred: !FLAT_BY_NATURE.has(column.entry.carries),
  })
  settleMarked(data, asStored(range), clipping.limits)
  return { entry: column.entry, data, unit: column.unit, quantum, ...clipping }
}

/** Declared limits are in the file's figures; a negative scale turns them round. */
function declaredLimits({ entry, factor }: ChannelColumn): Channel['limits'] {
  if (!entry.limits) return undefined
  const [a, b] = [entry.limits[0] * factor, entry.limits[1] * factor]
  return a < b ? [a, b] : [b, a]
}

/** The range in the single precision the samples are kept in. */
const asStored = (range: ValueRange): ValueRange => ({
  ...range,
  low: Math.fround(range.low),
  high: Math.fround(range.high),
})

/** No ignition coil makes more than about 60 kV (common practice, no source): figures beyond this are volts read as kilovolts, or a scale applied twice. */
const MOST_KV = 150

/** A channel whose scaled figures single precision cannot hold, all of whose samples are marked as clipped, a secondary higher than any is, or a speed no engine has. */
export function rangeProblem(column: ChannelColumn, range: ValueRange, file: string): Problem | undefined {
  const { low, high } = asStored(range)
  if (low <= high && Number.isFinite(low) && Number.isFinite(high))
    return column.unit === 'kV'
      ? tooHigh(column, Math.max(-low, high), file)
      : column.entry.carries === 'speed'
        ? noEngineSpeed(column, high, file)
        : undefined
  return problem(
    'out-of-range',
    { file, column: column.index + 1 },
    {
      column: column.name,
      found: String(low <= high ? range.high : 'Inf'),
      count: range.lowMarks + range.highMarks,
    },
  )
}

/** An engine that turns at all does so between these somewhere in a recording, rpm; common practice, no source. */
const SPEED_WORLD = { least: 50, most: 20_000 } as const
/** Revolutions a minute in one revolution a second. */
const RPM_PER_HZ = 60

/** A speed no engine has: thousands marks read as decimal signs (1.026 for 1026), another unit, another column. */
function noEngineSpeed(column: ChannelColumn, high: number, file: string): Problem | undefined {
  const rpm = column.unit === 'Hz' ? high * RPM_PER_HZ : high
  if (rpm >= SPEED_WORLD.least && rpm <= SPEED_WORLD.most) return undefined
  return problem(
    'implausible-speed',
    { file, column: column.index + 1 },
    {
      column: column.name,
      found: `${Number(rpm.toPrecision(3))} rpm`,
      expected: `${SPEED_WORLD.least} \u2026 ${SPEED_WORLD.most} rpm`,
    },
  )
}

function tooHigh(column: ChannelColumn, kv: number, file: string): Problem | undefined {
  if (kv <= MOST_KV) return undefined
  return problem(
    'implausible-voltage',
    { file, column: column.index + 1 },
    { column: column.name, found: `${Number(kv.toPrecision(3))} kV`, most: `${MOST_KV} kV` },
  )
}
