import { makeRandom, type Random } from '../../src/maths/random.ts'

/** A change of speed that follows a spray. */
export interface SimulatedResponse {
  fromS: number
  lateS: number
  lastsS: number
  rpm: number
}

/** An idling engine's speed, all of it invented. */
export interface SimulatedIdle {
  seconds: number
  rateHz: number
  /** Half of peak to peak of the swing, rpm, its rate, and how unsteady both are (0: a pure sine). */
  swingRpm: number
  swingHz: number
  phaseJitter: number
  heightJitter: number
  secondHarmonic: number
  /** Straight drift, rpm a minute, and random wander, rpm per root second. */
  driftRpmPerMin: number
  wander: number
  /** Combustion noise with a memory of 0.4 s, and reading noise, rpm. */
  noiseRpm: number
  readingRpm: number
  /** Time constant of an idle control that pushes back, s; undefined where there is none. */
  pushS: number | undefined
  /** Time constant of the engine, s. */
  lagS: number
  /** Step of the speed reading, rpm. */
  quantumRpm: number
  responses: readonly SimulatedResponse[]
  /** Ports closed for a while: what that does to the speed, rpm, and the factor on the swing. */
  closed?: readonly { fromS: number; toS: number; rpm: number; swing: number }[]
  /** Throttle openings: start, length, height. */
  blips?: readonly { fromS: number; lastsS: number; rpm: number }[]
}

const MEAN_RPM = 750
const NOISE_MEMORY_S = 0.4
const HEIGHT_MEMORY_S = 5

/** Largest change one response really makes, after engine lag and idle control, rpm with its sign. */
export function peakOf(idle: SimulatedIdle, response: SimulatedResponse): number {
  const dt = 1 / idle.rateHz
  const control = controlOf({ ...idle, responses: [response], blips: [] }, dt)
  let peak = 0
  for (let i = 0; i < idle.seconds * idle.rateHz; i++) {
    const speed = control(i * dt)
    if (Math.abs(speed) > Math.abs(peak)) peak = speed
  }
  return peak
}

/** Speed on even times from 0 s on. */
export function simulateSpeed(
  idle: SimulatedIdle,
  seed: number,
): { timesS: Float64Array; rpm: Float64Array } {
  const random = makeRandom(seed)
  const n = Math.floor(idle.seconds * idle.rateHz)
  const dt = 1 / idle.rateHz
  const swing = swingOf(idle, random, dt)
  const control = controlOf(idle, dt)
  const timesS = Float64Array.from({ length: n }, (_, i) => i * dt)
  let noise = 0
  let wander = 0
  const rpm = timesS.map((t) => {
    noise +=
      (-noise * dt) / NOISE_MEMORY_S +
      idle.noiseRpm * Math.sqrt((2 * dt) / NOISE_MEMORY_S) * random.gaussian()
    wander += idle.wander * Math.sqrt(dt) * random.gaussian()
    const drift = (idle.driftRpmPerMin * t) / 60
    const value =
      MEAN_RPM +
      drift +
      wander +
      swing() * swingFactor(idle, t) +
      noise +
      control(t) +
      idle.readingRpm * random.gaussian()
    return idle.quantumRpm > 0 ? Math.round(value / idle.quantumRpm) * idle.quantumRpm : value
  })
  return { timesS, rpm }
}

const swingFactor = ({ closed = [] }: SimulatedIdle, t: number): number =>
  closed.reduce((factor, c) => (t >= c.fromS && t < c.toS ? factor * c.swing : factor), 1)

function swingOf(idle: SimulatedIdle, random: Random, dt: number): () => number {
  let phase = random.uniform() * 2 * Math.PI
  let height = 1
  return () => {
    phase +=
      2 *
      Math.PI *
      idle.swingHz *
      dt *
      (1 + (idle.phaseJitter * random.gaussian()) / Math.sqrt(dt * idle.swingHz))
    height +=
      ((1 - height) * dt) / HEIGHT_MEMORY_S +
      idle.heightJitter * Math.sqrt((2 * dt) / HEIGHT_MEMORY_S) * random.gaussian()
    return idle.swingRpm * height * (Math.sin(phase) + idle.secondHarmonic * Math.sin(2 * phase + 1))
  }
}

function controlOf(idle: SimulatedIdle, dt: number): (t: number) => number {
  let speed = 0
  let push = 0
  return (t) => {
    let drive = 0
    for (const r of idle.responses)
      if (t >= r.fromS + r.lateS && t < r.fromS + r.lateS + r.lastsS) drive += r.rpm
    for (const c of idle.closed ?? []) if (t >= c.fromS && t < c.toS) drive += c.rpm
    for (const b of idle.blips ?? []) if (t >= b.fromS && t < b.fromS + b.lastsS) drive += b.rpm
    speed += ((drive - push - speed) * dt) / idle.lagS
    if (idle.pushS !== undefined) push += (speed * dt) / idle.pushS
    return speed
  }
}

const between = (random: Random, low: number, high: number): number => low + (high - low) * random.uniform()

/** Kinds of idle the spray test has to withstand. */
export const IDLE_KINDS = [
  'steady swing',
  'slow large swing',
  'unsteady swing',
  'rough and wandering',
] as const
export type IdleKind = (typeof IDLE_KINDS)[number]

/** One idle of a kind, its parameters drawn: swing up to 100 rpm at 0.2 to 1.5 Hz, drift, with or without idle control. */
export function drawIdle(
  kind: IdleKind,
  at: { seconds: number; seed: number; responses: readonly SimulatedResponse[] },
): SimulatedIdle {
  const random = makeRandom(at.seed)
  const common = {
    seconds: at.seconds,
    rateHz: [5, 10, 20][random.integer(3)]!,
    swingRpm: between(random, 0, 100),
    swingHz: between(random, 0.2, 1.5),
    phaseJitter: 0,
    heightJitter: 0,
    secondHarmonic: between(random, 0, 0.2),
    driftRpmPerMin: between(random, -40, 40),
    wander: 0,
    noiseRpm: between(random, 3, 7),
    readingRpm: between(random, 1, 4),
    quantumRpm: [0, 1, 4][random.integer(3)]!,
    pushS: random.uniform() < 0.5 ? undefined : between(random, 2, 6),
    lagS: between(random, 0.15, 0.5),
    responses: at.responses,
  }
  if (kind === 'steady swing') return common
  if (kind === 'slow large swing') return { ...common, swingRpm: 100, swingHz: between(random, 0.2, 0.4) }
  const unsteady = { ...common, phaseJitter: 0.03, heightJitter: 0.15, wander: 1 }
  if (kind === 'unsteady swing') return unsteady
  return {
    ...unsteady,
    swingRpm: between(random, 50, 100),
    phaseJitter: 0.06,
    heightJitter: 0.25,
    wander: 2,
    noiseRpm: between(random, 5, 9),
  }
}

/** A response as sprays make them: 0.3 to 2 s late, 1 to 5 s long. */
export function drawResponse(fromS: number, rpm: number, seed: number): SimulatedResponse {
  const random = makeRandom(seed)
  return { fromS, rpm, lateS: between(random, 0.3, 2), lastsS: between(random, 1, 5) }
}
