import type { Random } from '../maths/random.ts'

/** How the engine turns during a capture. */
interface SpeedModel {
  rpm: number
  /** Peak to peak of a slow swing, rpm, and its period. */
  swingRpm: number
  swingPeriodS: number
  /** Standard deviation of the speed from one ignition to the next, rpm. */
  jitterRpm: number
  /** Changes of speed that come and go, as after a spray: between these instants, with the engine's lag at both ends. */
  changes?: readonly { fromS: number; toS: number; rpm: number }[]
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

const risen = (sinceS: number): number => (sinceS > 0 ? 1 - Math.exp(-sinceS / FOLLOW_S) : 0)

const speedAt = (
  { rpm, swingRpm, swingPeriodS, changes = [] }: SpeedModel,
  tS: number,
  phase: number,
): number =>
  changes.reduce(
    (sum, c) => sum + c.rpm * (risen(tS - c.fromS) - risen(tS - c.toS)),
    rpm + (swingRpm / 2) * Math.sin((2 * Math.PI * tS) / swingPeriodS + phase),
  )

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
