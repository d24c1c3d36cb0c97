import type { FileColumn } from '../capture/read-columns.ts'
import { channelEvents } from '../ignition/channel-events.ts'
import { channelRemarks } from '../ignition/remarks.ts'
import { median } from '../maths/median.ts'
import type { PeekedEvents } from './peeked.ts'

/** Kilovolts in one of a column's unit; a column without a unit is taken for one in kV until its height says otherwise. */
const KV_OF: Readonly<Record<string, number>> = { kV: 1, V: 1e-3, mV: 1e-6 }

/** Firing lines at idle are 5 to 15 kV (common practice, no source); read a little wider. */
const USUAL_KV: readonly [number, number] = [2, 40]
const MIDDLE_KV = 9

/** The events of a column taken for a secondary; `atS` are their breakdowns from the first sample. */
export function eventsOf(
  column: FileColumn,
  { sampleS, unit }: { sampleS: number; unit: string | undefined },
): { events: PeekedEvents; atS: number[] } {
  const own = inKv(column, { sampleS, kvPerUnit: KV_OF[unit ?? 'kV'] ?? 1 })
  const scale = scaleFor(own.firingKv)
  const { found, flags, signal, firingKv, channel } =
    scale === 1 ? own : inKv(column, { sampleS, kvPerUnit: (KV_OF[unit ?? 'kV'] ?? 1) * scale })
  const durationS = column.data.length * sampleS
  return {
    atS: found.map((e) => e.breakdown * sampleS),
    events: {
      count: found.length,
      perS: found.length / durationS,
      polarity: signal.sign === 1 ? 'positive' : 'negative',
      firingKv,
      scale,
      perPulse: null,
      remarks: channelRemarks(channel, flags),
    },
  }
}

function inKv(
  { data, quantum, limits, limitsFrom, clippedSamples, name }: FileColumn,
  { sampleS, kvPerUnit }: { sampleS: number; kvPerUnit: number },
) {
  const entry = {
    column: name,
    carries: 'secondary' as const,
    unit: 'kV' as const,
    scale: 1,
    polarity: 'auto' as const,
  }
  const scaled = kvPerUnit === 1 ? data : data.map((v) => v * kvPerUnit)
  const range = limits && ([limits[0] * kvPerUnit, limits[1] * kvPerUnit] as const)
  const channel = channelEvents(
    { sampleS },
    {
      entry,
      data: scaled,
      unit: 'kV',
      quantum: quantum * kvPerUnit,
      limits: range,
      limitsFrom,
      clippedSamples,
    },
    0,
  )
  const heights = channel.waves.map((w) => w.kv[w.peak] ?? 0)
  return {
    channel,
    found: channel.found,
    flags: channel.flags,
    signal: channel.signal,
    firingKv: median(heights) ?? 0,
  }
}

/** A power of ten that brings firing lines to a usual height: the ratio of probe or pickup, as far as it can be told. */
function scaleFor(firingKv: number): number {
  if (firingKv === 0 || (firingKv >= USUAL_KV[0] && firingKv <= USUAL_KV[1])) return 1
  return 10 ** Math.round(Math.log10(MIDDLE_KV / firingKv))
}

/** Events from each pulse to the next: the usual number, and the share of pulses with it; null for fewer than two pulses. */
export function eventsPerPulse(
  eventsS: readonly number[],
  pulsesS: readonly number[],
): PeekedEvents['perPulse'] {
  const counts = pulsesS
    .slice(1)
    .map((to, i) => eventsS.filter((t) => t >= pulsesS[i]! - EARLY_S && t < to - EARLY_S).length)
  const usual = median(counts)
  if (usual === undefined || !Number.isInteger(usual)) return null
  return { count: usual, share: counts.filter((c) => c === usual).length / counts.length }
}
/** A sync clamp answers the very breakdown it marks: a little before or after the time found for it. */
const EARLY_S = 0.5e-3
