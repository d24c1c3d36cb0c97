import type { Capture, Channel } from '../capture/capture.ts'
import { delineate, type Delineated, type Recorder } from './delineate.ts'
import { findDroop, type Droop, type RestAfter } from './droop.ts'
import type { DwellSeen } from './droop-in-dwell.ts'
import type { EventFlag, EventWave, SampleRange } from './event.ts'
import { eventFlags } from './event-flags.ts'
import { findHum, type Hum } from './hum.ts'
import { makeWave } from './make-wave.ts'
import { findPolarity } from './polarity.ts'
import { noiseSd } from './quiet-level.ts'
import { ratioStated } from './ratio-stated.ts'
import type { Signal } from './signal.ts'
import { stretchAt, wallsOf, type Walls } from './walls.ts'

/** All that one secondary channel shows, before cylinders are told. */
export interface ChannelEvents {
  channel: number
  entry: Channel['entry']
  signal: Signal
  recorder: Recorder
  sureness: number
  hum: Hum | undefined
  droop: Droop | undefined
  found: readonly Delineated[]
  waves: readonly EventWave[]
  flags: readonly (readonly EventFlag[])[]
}

/** Finds and delineates the events of one secondary channel. */
export function channelEvents(
  capture: Pick<Capture, 'sampleS' | 'jumps' | 'frames'>,
  channel: Channel,
  index: number,
): ChannelEvents {
  const { data, quantum, limits, entry } = channel
  const { sampleS, frames = [] } = capture
  const walls = wallsOf(capture)
  const noiseKv = noiseSd(data)
  const polarity = findPolarity(data, entry.polarity, { sampleS, noiseKv, quantumKv: quantum })
  const signal: Signal = { data, sign: polarity.sign, sampleS }
  const limitKv = limits === undefined ? undefined : polarity.sign === 1 ? limits[1] : -limits[0]
  const recorder: Recorder = { noiseKv, quantumKv: quantum, limitKv }
  const found = delineate(signal, polarity.blocks, polarity.picks, { recorder, walls })
  // A hum keeps no step from frame to frame.
  const hum =
    frames.length > 0
      ? undefined
      : findHum(polarity.blocks, restsBetween(found, { samples: data.length, sampleS }))
  const droop = findDroop(
    signal,
    { rests: restsAfter(found, { sampleS, walls, samples: data.length }), dwells: found.flatMap(dwellSeen) },
    recorder,
  )
  const waves = found.map((event, i) => {
    const stretch = stretchAt(walls, event.breakdown, data.length)
    return makeWave(signal, event, {
      recorder,
      hum,
      droop,
      start: stretch.from,
      ratioUnknown: !ratioStated(entry),
      before: found[i - 1]?.sparkEnd ?? 0,
      after: Math.min(stretch.to, found[i + 1]?.dwellStart ?? found[i + 1]?.breakdown ?? data.length),
    })
  })
  const flags = found.map((event, i) => eventFlags(event, waves[i]!))
  return {
    channel: index,
    entry,
    signal,
    recorder,
    sureness: polarity.sureness,
    hum,
    droop,
    found,
    waves,
    flags,
  }
}

const dwellSeen = ({ restAt, restKv, dwellStart, breakdown }: Delineated): DwellSeen[] =>
  restAt === undefined || dwellStart === undefined ? [] : [{ restAt, restKv, dwellStart, breakdown }]

/** A coil's slow tail is past this long after a spark. */
const TAIL_S = 5e-3
/** Kept clear of dwell start, or of a breakdown without one. */
const CLEAR_S = 0.2e-3
const CLEAR_OF_BREAKDOWN_S = 12e-3

/** Stretches in which nothing happens: from the tail of one event to the dwell of the next. */
function restsBetween(
  found: readonly Delineated[],
  { samples, sampleS }: { samples: number; sampleS: number },
): SampleRange[] {
  const starts = [0, ...found.map((e) => (e.sparkEnd ?? e.breakdown + TAIL_S / sampleS) + TAIL_S / sampleS)]
  const ends = [
    ...found.map((e) =>
      e.dwellStart === undefined
        ? e.breakdown - CLEAR_OF_BREAKDOWN_S / sampleS
        : e.dwellStart - CLEAR_S / sampleS,
    ),
    // Dwell of an event after the record's end may have begun.
    samples - CLEAR_OF_BREAKDOWN_S / sampleS,
  ]
  return starts.flatMap((from, i) => (ends[i]! > from ? [{ from, to: ends[i]! }] : []))
}

/** Past this long after a spark its coil has rung out, so that what moves the rest is the pickup. */
const RUNG_OUT_S = 5e-3
/** Where the next dwell comes sooner, the rest just before it is taken: the coil rings there as before every event. */
const SHORT_REST_S = 0.6e-3
const TURNS_OVER_S = 1e-3

/** The rest before every event whose instants are all seen, and the stretch at rest after it. */
function restsAfter(
  found: readonly Delineated[],
  { sampleS, walls, samples }: { sampleS: number; walls: Walls; samples: number },
): RestAfter[] {
  return found.flatMap(({ restAt, restKv, sparkEnd, partial }, i) => {
    const following = found[i + 1]
    if (partial || restAt === undefined || sparkEnd === undefined) return []
    const wall = stretchAt(walls, sparkEnd, samples).to
    const next =
      wall < samples && (following === undefined || following.breakdown >= wall)
        ? wall
        : following?.dwellStart
    if (next === undefined) return []
    const to = next - CLEAR_S / sampleS
    const from = Math.min(sparkEnd + RUNG_OUT_S / sampleS, to - SHORT_REST_S / sampleS)
    return from > sparkEnd + TURNS_OVER_S / sampleS ? [{ restAt, restKv, quiet: { from, to } }] : []
  })
}
