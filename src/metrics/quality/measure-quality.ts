import type { Capture, Channel } from '../../capture/capture.ts'
import type { CaptureEvents, IgnitionEvent } from '../../ignition/event.ts'
import { median } from '../../maths/median.ts'
import { ratioStated } from '../../ignition/ratio-stated.ts'
import type { MeasuredEvent } from '../figures.ts'
import { clockJumps } from './clock-jumps.ts'
import type { ChannelQuality, QualityFacts } from './facts.ts'
import { levelDrift } from './level-drift.ts'

/**
 * Facts on a capture's quality, channel by channel.
 *
 * @param found     events with their waves
 * @param measured  the same events in the same order, measured
 */
export function measureQuality(
  capture: Capture,
  found: CaptureEvents,
  measured: readonly MeasuredEvent[],
): QualityFacts {
  const channels = capture.channels.flatMap((channel, index) =>
    channel.entry.carries === 'secondary'
      ? [channelQuality(channel, { found: found.events, measured, index })]
      : [],
  )
  return {
    durationS: capture.rows * capture.sampleS,
    sampleRateHz: 1 / capture.sampleS,
    channels,
    jumps: clockJumps(capture, found.events),
    leftOut: {
      starting: measured.filter((e) => e.flags.includes('starting')).length,
      offSpeed: measured.filter((e) => e.flags.includes('off_speed')).length,
      of: measured.length,
    },
    ...framesOf(capture, found.events),
  }
}

function framesOf(
  { frames = [], rows, sampleS }: Capture,
  events: readonly IgnitionEvent[],
): Pick<QualityFacts, 'frames'> {
  if (frames.length === 0) return {}
  const lengths = frames.map(({ row }, i) => ((frames[i + 1]?.row ?? rows) - row) * sampleS)
  const cut = events.filter((e) => e.flags.includes('partial')).length
  return { frames: { count: frames.length, lengthS: median(lengths)!, cut } }
}

function channelQuality(
  { entry, quantum }: Channel,
  {
    found,
    measured,
    index,
  }: { found: readonly IgnitionEvent[]; measured: readonly MeasuredEvent[]; index: number },
): ChannelQuality {
  const own = found.flatMap((event, i) =>
    event.channel === index ? [{ event, figures: measured[i]!.figures }] : [],
  )
  const firing = own.filter(({ event }) => event.kind === 'firing')
  const { cylinders } = entry
  return {
    column: String(entry.column),
    cylinders: cylinders === undefined || cylinders === 'all' ? undefined : [cylinders].flat(),
    ratioStated: ratioStated(entry),
    midKv: median(firing.flatMap(({ figures: { midKv } }) => (midKv.ok ? [midKv.value] : []))),
    lineSamples: median(
      firing.flatMap(({ event: { wave } }) =>
        wave.sparkEnd === undefined ? [] : [wave.sparkEnd - wave.breakdown],
      ),
    ),
    quantumKv: quantum,
    level: levelDrift(
      own
        .toSorted((a, b) => a.event.breakdownS - b.event.breakdownS)
        .map(({ event }) => event.wave.baselineKv),
    ),
  }
}
