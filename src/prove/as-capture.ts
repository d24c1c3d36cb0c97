import type { Capture, Channel } from '../capture/capture.ts'
import type { CaptureEntry, ChannelEntry } from '../job/schema.ts'
import type { SimulatedCapture, SimulatedChannel } from '../model/simulate-capture.ts'

/** A channel's entry as job.yaml would describe it. */
function entryOf(channel: SimulatedChannel, index: number, all: number): ChannelEntry {
  const column = `${channel.carries}_${index + 1}`
  if (channel.carries === 'sync')
    return {
      column,
      carries: 'sync',
      cylinder: channel.sees as number,
      unit: 'V',
      scale: 1,
      polarity: 'auto',
    }
  const { sees } = channel
  const cylinders = sees === 'all' ? (all === 1 ? 1 : 'all') : typeof sees === 'number' ? sees : [...sees]
  return { column, carries: 'secondary', cylinders, unit: 'kV', scale: 1, polarity: 'auto' }
}

function channelOf(channel: SimulatedChannel, index: number, all: number): Channel {
  const [low, high] = channel.limits
  const edge = channel.quantum / 2
  return {
    entry: entryOf(channel, index, all),
    data: Float32Array.from(channel.data),
    unit: channel.unit,
    quantum: channel.quantum,
    limits: channel.limits,
    limitsFrom: 'declared',
    clippedSamples: channel.data.reduce((n, v) => n + (v <= low + edge || v >= high - edge ? 1 : 0), 0),
  }
}

/**
 * A simulated capture in the form the reader hands on, without writing and reading a file.
 * Only for captures whose clock has no fault.
 */
export function asCapture(
  simulated: SimulatedCapture,
  options: { stage?: 'before' | 'after'; file?: string } = {},
): Capture {
  if (simulated.timesS !== undefined)
    throw new RangeError('a capture with a faulty clock must go through a file')
  const file = options.file ?? 'captures/simulated.csv'
  const all = simulated.truth.parameters.engine.firingOrder.length
  const channels = simulated.channels.map((channel, i) => channelOf(channel, i, all))
  const entry: CaptureEntry = {
    file,
    stage: options.stage ?? 'before',
    condition: 'idle',
    engine: 'warm',
    taken: '2026-03-04T09:00:00Z',
    time: { sample_rate_hz: simulated.truth.parameters.recorder.sampleHz },
    channels: channels.map((c) => c.entry),
  }
  return {
    file,
    entry,
    rows: simulated.rows,
    startS: 0,
    sampleS: simulated.sampleS,
    timesS: undefined,
    channels,
    warnings: [],
    sha256: '',
    bytes: 0,
    dialect: {
      encoding: 'utf-8',
      separator: ',',
      decimal: '.',
      thousands: '',
      decimalSeen: true,
      lineEnd: '\n',
      preambleLines: 0,
      header: channels.map((c) => String(c.entry.column)),
      unitsRow: undefined,
      headerLine: 1,
      mismatchedHeader: undefined,
      dataOffset: 0,
      dataLine: 2,
      columns: channels.length,
      evidence: [],
    },
  }
}
