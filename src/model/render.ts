import { capacitorEndS, capacitorKv } from './capacitor-discharge.ts'
import type { Event } from './ignition.ts'
import type { Pickup } from './pickup.ts'
import { waveEndS, waveKv } from './wave.ts'

/** Which plugs of an event a pickup sits on; empty where it sees none of them directly. */
export function plugsSeen(pickup: Pickup, event: Event): number[] {
  const { sees } = pickup
  const plugs =
    event.kind === 'capacitor'
      ? [event.firing.cylinder]
      : event.discharge.plugs.map((wave) => wave.plug.cylinder)
  if (sees === 'all') return [0]
  const wanted: readonly number[] = typeof sees === 'number' ? [sees] : sees
  return [...plugs.keys()].filter((i) => wanted.includes(plugs[i]!))
}

/** When one plug of an event shows, on the capture's clock, and its voltage there. */
interface Shown {
  fromS: number
  toS: number
  kvAt: (tS: number) => number
}

function shown(event: Event, plug: number): Shown {
  const { atS } = event
  if (event.kind === 'capacitor') {
    return {
      fromS: atS,
      toS: atS + capacitorEndS(event.spark),
      kvAt: (tS) => capacitorKv(event.spark, tS - atS),
    }
  }
  const { discharge } = event
  const wave = discharge.plugs[plug]!
  const hash = event.hashes[plug]
  return {
    fromS: atS - discharge.dwellS,
    toS: atS + waveEndS(discharge),
    kvAt: (tS) => waveKv(discharge, wave, { tS: tS - atS, hash }),
  }
}

/** Adds one plug's wave of one event to a channel, times a factor. */
function addWave(
  out: Float64Array,
  event: Event,
  part: { plug: number; factor: number; sampleS: number },
): void {
  const { fromS, toS, kvAt } = shown(event, part.plug)
  const from = Math.max(Math.ceil(fromS / part.sampleS), 0)
  const to = Math.min(Math.ceil(toS / part.sampleS), out.length)
  for (let i = from; i < to; i++) out[i] = out[i]! + part.factor * kvAt(i * part.sampleS)
}

/**
 * Voltage at one pickup, kV, firing line upward, before gain, droop and recorder: its own plugs, and a share of the others.
 *
 * @returns shape (samples)
 */
export function renderPickup(
  pickup: Pickup,
  events: readonly Event[],
  samples: number,
  sampleS: number,
): Float64Array {
  const out = new Float64Array(samples)
  for (const event of events) {
    const own = plugsSeen(pickup, event)
    for (const plug of own) addWave(out, event, { plug, factor: 1, sampleS })
    if (own.length === 0 && pickup.crosstalk !== 0)
      addWave(out, event, { plug: 0, factor: pickup.crosstalk, sampleS })
  }
  return out
}
