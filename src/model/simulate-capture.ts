import { makeRandom, type Random } from '../maths/random.ts'
import type { CaptureParameters } from './capture-parameters.ts'
import type { CylinderState } from './cylinder-state.ts'
import { scheduleFirings, type Firing } from './engine.ts'
import { drawEvents, stateOf, type Event } from './ignition.ts'
import { droop, type Pickup } from './pickup.ts'
import { digitise, fileRows, stepOf, topOf, type Digitiser } from './recorder.ts'
import { plugsSeen, renderPickup } from './render.ts'
import { drawPulses, syncV, type SyncPulse } from './sync.ts'
import { capacitorTruth, eventTruth, type EventTruth } from './truth.ts'

/** One recorded channel, as it would stand in a file. */
export interface SimulatedChannel {
  carries: 'secondary' | 'sync'
  /** Secondary: what the pickup sees. Sync: the cylinder marked. */
  sees: Pickup['sees']
  unit: 'kV' | 'V'
  /** Direction of the firing line as recorded. */
  polarity: 1 | -1
  /** shape (rows): digitised, in `unit` */
  data: Float64Array
  /** shape (rows): at the pickup, upright, before gain, droop, polarity and recorder, in `unit`; hash included */
  clean: Float64Array
  /** Smallest step and range of the recorder, in `unit`. */
  quantum: number
  limits: readonly [number, number]
}

export interface SimulatedCapture {
  sampleS: number
  rows: number
  /** shape (rows): stamps on the file's clock, s; undefined where row i is at i * sampleS */
  timesS: Float64Array | undefined
  channels: readonly SimulatedChannel[]
  truth: CaptureTruth
}

interface CaptureTruth {
  /** In order of breakdown; those with their breakdown inside the file, cut or not, and no others. */
  events: readonly EventTruth[]
  pulses: readonly SyncPulse[]
  parameters: CaptureParameters
}

/** Streams of luck kept apart, so that another recorder gets the same events. */
const STREAMS = { firings: 1, events: 2, sync: 3, noise: 4, wander: 5 }
const stream = (seed: number, which: number): Random => makeRandom(Math.imul(seed, 64) + which)

/** Events before the file's start and after its end still reach into it. */
const LEAD_S = 0.03

/** Draws the engine's ignitions and every discharge they make. */
function drawAll(parameters: CaptureParameters): Event[] {
  const { engine, ignition, cylinders, durationS, seed } = parameters
  const luck = stream(seed, STREAMS.events)
  const lit = (cylinder: number): boolean => luck.uniform() >= stateOf(cylinders, cylinder).misfireShare
  const firings: Firing[] = scheduleFirings(
    engine,
    { durationS, leadS: LEAD_S },
    stream(seed, STREAMS.firings),
    lit,
  )
  const wander = wanderOf(cylinders, stream(seed, STREAMS.wander))
  return firings.flatMap((firing) => {
    const addedKv = speedKv(parameters, firing) + wander(firing.cylinder)
    return drawEvents(ignition, firing, withMixture(cylinders, firing.cylinder, addedKv), luck)
  })
}

/** What every cylinder's mixture wanders by, kV, turn by turn: first-order correlated. */
function wanderOf(cylinders: CaptureParameters['cylinders'], luck: Random): (cylinder: number) => number {
  const now = new Map<number, number>()
  return (cylinder) => {
    const wander = stateOf(cylinders, cylinder).mixtureWander
    if (!wander) return 0
    const before = now.get(cylinder) ?? luck.gaussian()
    const next = wander.kept * before + Math.sqrt(1 - wander.kept ** 2) * luck.gaussian()
    now.set(cylinder, next)
    return wander.kv * next
  }
}

/** What the speed of the moment adds to the mixture, kV: nothing unless it follows the speed. */
function speedKv({ engine }: CaptureParameters, firing: Firing): number {
  const { rpm, mixtureKvPerRpm } = engine.speed
  if (mixtureKvPerRpm === undefined) return 0
  const ownRpm = (30 * engine.strokes) / engine.firingOrder.length / firing.intervalS
  return mixtureKvPerRpm * (rpm - ownRpm)
}

function withMixture(
  cylinders: ReadonlyMap<number, CylinderState>,
  cylinder: number,
  addedKv: number,
): ReadonlyMap<number, CylinderState> {
  if (addedKv === 0) return cylinders
  const state = stateOf(cylinders, cylinder)
  return new Map(cylinders).set(cylinder, { ...state, mixtureKv: state.mixtureKv + addedKv })
}

/** Largest noise-free sample around the breakdown. */
function sampledPeak(clean: Float64Array, breakdownS: number, sampleS: number): number {
  const from = Math.max(Math.floor((breakdownS - 30e-6) / sampleS), 0)
  const to = Math.min(Math.ceil((breakdownS + 6e-6) / sampleS), clean.length - 1)
  let peak = -Infinity
  for (let i = from; i <= to; i++) peak = Math.max(peak, clean[i]!)
  return peak
}

/** Truth of every event a pickup sees, with the speed to that cylinder's next ignition of the same kind. */
function channelTruth(
  parameters: CaptureParameters,
  events: readonly Event[],
  channel: number,
): EventTruth[] {
  const pickup = parameters.pickups[channel]!
  const seen = events
    .flatMap((event) => {
      const plugs = plugsSeen(pickup, event)
      if (plugs.length === 0) return []
      return [
        event.kind === 'capacitor'
          ? capacitorTruth(event, channel, parameters.durationS)
          : eventTruth(event, plugs, channel, parameters.durationS),
      ]
    })
    .filter((t) => t.breakdownS >= 0 && t.breakdownS < parameters.durationS)
  return seen.map((truth, i) => {
    const next = seen
      .slice(i + 1)
      .find((t) => t.cylinder === truth.cylinder && t.kind === truth.kind && t.strike === truth.strike)
    const rpm =
      next === undefined ? undefined : (30 * parameters.engine.strokes) / (next.breakdownS - truth.breakdownS)
    return { ...truth, rpm }
  })
}

/** What a pickup hands to the recorder. */
function shaped(pickup: Pickup, clean: Float64Array, sampleS: number): Float64Array {
  const factor = pickup.gain * pickup.polarity
  return droop(factor === 1 ? clean : clean.map((kv) => kv * factor), pickup.droopS, sampleS)
}

const thin = (data: Float64Array, kept: Uint32Array | undefined): Float64Array =>
  kept === undefined ? data : Float64Array.from(kept, (i) => data[i]!)

/** Instants at which the sync clamp is struck: breakdowns of the marked cylinder on its firing stroke. */
function struckS(parameters: CaptureParameters, events: readonly Event[]): number[] {
  return events.flatMap((event) => {
    if (event.firing.cylinder !== parameters.sync?.cylinder) return []
    if (event.kind === 'capacitor') return [event.atS + event.spark.unit.riseUs * 1e-6]
    const { breakdownS } = event.discharge.plugs[0]!
    return breakdownS === undefined ? [] : [event.atS + breakdownS]
  })
}

/**
 * Simulates one capture: engine, coil, plugs, pickups and recorder, with the truth of every event.
 * A 2 s capture at 500 kS/s takes well under a second.
 *
 * @param parameters  same parameters, same samples
 */
export function simulateCapture(parameters: CaptureParameters): SimulatedCapture {
  const { recorder, pickups, sync, durationS, seed } = parameters
  const sampleS = 1 / recorder.sampleHz
  const samples = Math.floor(durationS * recorder.sampleHz)
  const events = drawAll(parameters)
  const rows = fileRows(samples, sampleS, recorder.faults)
  const noise = stream(seed, STREAMS.noise)
  const truths: EventTruth[] = []
  const record = (clean: Float64Array, pickupOut: Float64Array, digitiser: Digitiser) => ({
    data: thin(digitise(pickupOut, digitiser, sampleS, noise), rows.kept),
    clean: thin(clean, rows.kept),
    quantum: stepOf(digitiser),
    limits: [digitiser.low, topOf(digitiser)] as const,
  })
  const channels = pickups.map((pickup, c): SimulatedChannel => {
    const clean = renderPickup(pickup, events, samples, sampleS)
    for (const t of channelTruth(parameters, events, c))
      truths.push({ ...t, peakSampledKv: sampledPeak(clean, t.breakdownS, sampleS) })
    const made = record(clean, shaped(pickup, clean, sampleS), recorder.secondary)
    return { carries: 'secondary', sees: pickup.sees, unit: 'kV', polarity: pickup.polarity, ...made }
  })
  const pulses =
    sync === undefined
      ? []
      : drawPulses(sync, struckS(parameters, events), durationS, stream(seed, STREAMS.sync))
  if (sync !== undefined) {
    const clean = syncV(sync, pulses, samples, sampleS)
    channels.push({
      carries: 'sync',
      sees: sync.cylinder,
      unit: 'V',
      polarity: sync.polarity,
      ...record(clean, clean, recorder.sync),
    })
  }
  return {
    sampleS,
    rows: rows.kept?.length ?? samples,
    timesS: rows.timesS,
    channels,
    truth: { events: truths.sort((a, b) => a.breakdownS - b.breakdownS), pulses, parameters },
  }
}
