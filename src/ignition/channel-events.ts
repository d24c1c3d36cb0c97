import type { Capture, Channel } from '../capture/capture.ts'
import { delineate, type Delineated, type Recorder } from './delineate.ts'
import type { EventFlag, EventWave } from './event.ts'
import { eventFlags } from './event-flags.ts'
import { makeWave } from './make-wave.ts'
import { findPolarity } from './polarity.ts'
import { noiseSd } from './quiet-level.ts'
import type { Signal } from './signal.ts'

/** All that one secondary channel shows, before cylinders are told. */
export interface ChannelEvents {
  channel: number
  entry: Channel['entry']
  signal: Signal
  recorder: Recorder
  sureness: number
  found: readonly Delineated[]
  waves: readonly EventWave[]
  flags: readonly (readonly EventFlag[])[]
}

/** Finds and delineates the events of one secondary channel. */
export function channelEvents(capture: Capture, channel: Channel, index: number): ChannelEvents {
  const { data, quantum, limits, entry } = channel
  const { sampleS } = capture
  const noiseKv = noiseSd(data)
  const polarity = findPolarity(data, entry.polarity, { sampleS, noiseKv, quantumKv: quantum })
  const signal: Signal = { data, sign: polarity.sign, sampleS }
  const limitKv = limits === undefined ? undefined : polarity.sign === 1 ? limits[1] : -limits[0]
  const recorder: Recorder = { noiseKv, quantumKv: quantum, limitKv }
  const found = delineate(signal, polarity.blocks, polarity.picks, recorder)
  const waves = found.map((event, i) => makeWave(signal, event, {
    recorder, before: found[i - 1]?.sparkEnd ?? 0, after: found[i + 1]?.dwellStart ?? found[i + 1]?.breakdown ?? data.length,
  }))
  const flags = found.map((event, i) => eventFlags(event, waves[i]!))
  return { channel: index, entry, signal, recorder, sureness: polarity.sureness, found, waves, flags }
}
