import type { Random } from '../maths/random.ts'

/** How the engine turns during a capture. */
export interface SpeedModel {
  rpm: number
  /** Peak to peak of a slow swing, rpm, and its period. */
  swingRpm: number
  swingPeriodS: number
  /** Standard deviation of the speed from one ignition to the next, rpm. */
  jitterRpm: number
  /** Changes of speed that come and go, as after a spray: between these instants, with the engine's lag at both ends. */
  changes?: readonly { fromS: number; toS: number; rpm: number }[]
  /** The file begins with the starter: cranked so long at this speed, then a run-up that overshoots and settles. */
  start?: { crankedS: number; crankRpm: number; flareRpm: number }
  /** A leak weighs more the slower the engine draws: what the mixture adds by 90 % of the burn, kV, for every rpm below the middle. */
  mixtureKvPerRpm?: number
}

export interface EngineModel {
  strokes: 2 | 4
  firingOrder: readonly number[]
  speed: SpeedModel
  /** An ignition that lights nothing costs this share of the speed until the next one. */
  misfireDrop: number
}

/** One ignition: the coil of `cylinder` is switched off. */
export interface Firing {
  cylinder: number
  atS: number
  /** Until the next cylinder's ignition. */
  intervalS: number
  lit: boolean
}

/** Time constant with which the speed follows a change of torque, s. Our choice, no source. */
const FOLLOW_S = 0.3

/** Run-up of an engine that has fired, rpm a second; how fast its flare settles, s; ripple of compression at the starter. Our choice, no source. */
const RUN_UP_RPM_PER_S = 5000
const SETTLE_S = 0.4
const CRANK_RIPPLE = 0.15

/** The speed while the engine is started, from that at which it would idle. */
function started(idleRpm: number, start: NonNullable<SpeedModel['start']>, tS: number): number {
  const sinceS = tS - start.crankedS
  if (sinceS < 0) return start.crankRpm * (1 + CRANK_RIPPLE * Math.sin(20 * tS))
  const settling = idleRpm + start.flareRpm * Math.exp(-sinceS / SETTLE_S)
  return Math.min(start.crankRpm + RUN_UP_RPM_PER_S * sinceS, settling)
}

const risen = (sinceS: number): number => (sinceS > 0 ? 1 - Math.exp(-sinceS / FOLLOW_S) : 0)

function speedAt(
  { rpm, swingRpm, swingPeriodS, changes = [], start }: SpeedModel,
  tS: number,
  phase: number,
): number {
  const idleRpm = changes.reduce(
    (sum, c) => sum + c.rpm * (risen(tS - c.fromS) - risen(tS - c.toS)),
    rpm + (swingRpm / 2) * Math.sin((2 * Math.PI * tS) / swingPeriodS + phase),
  )
  return start ? started(idleRpm, start, tS) : idleRpm
}

/**
 * Ignitions from some time before the file's start to some time after its end, so that edges cut events as they do
 * in a real capture. Even spacing in crank angle; the speed swings and jitters.
 *
 * @param span  durationS of the file and leadS before and after it
 * @param lit   asked once an ignition, in order: does this one light its charge
 */
export function scheduleFirings(
  engine: EngineModel,
  span: { durationS: number; leadS: number },
  random: Random,
  lit: (cylinder: number) => boolean,
): Firing[] {
  const count = engine.firingOrder.length
  const turnsPerFiring = engine.strokes / 2 / count
  const phase = 2 * Math.PI * random.uniform()
  const nominalS = (turnsPerFiring * 60) / engine.speed.rpm
  let atS = -span.leadS - random.uniform() * nominalS
  const firings: Firing[] = []
  for (let n = random.integer(count); atS < span.durationS + span.leadS; n++) {
    const cylinder = engine.firingOrder[n % count]!
    const burns = lit(cylinder)
    const rpm = speedAt(engine.speed, atS, phase) + engine.speed.jitterRpm * random.gaussian()
    const intervalS = (turnsPerFiring * 60) / (rpm * (burns ? 1 : 1 - engine.misfireDrop))
    firings.push({ cylinder, atS, intervalS, lit: burns })
    atS += intervalS
  }
  return firings
}
