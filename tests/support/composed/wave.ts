import type { Random } from '../../../src/maths/random.ts'

/**
 * Secondary voltage as formulas of time, one event at a time. Made for composed jobs only and on purpose nothing like
 * src/model, so that the chain is not held against the model it was tuned on.
 * Shape of a burn (breakdown, level line, late climb where the mixture is lean, ring of the coil) and of an open secondary
 * (a tall damped cosine): common practice, no source.
 */

/** How one cylinder burns, as the composer decided. */
export interface CylinderWave {
  /** Late rise: level at 90 % of the burn less that at 50 %, as a share of the latter, %. */
  latePct: number
  /** Scatter of the late rise from event to event, points. */
  scatterPct: number
  firingKv: number
  burnMs: number
  /** Level at the middle of the burn, kV. */
  midKv: number
  /** Share of the firings that make no spark line (open secondary): 0 never, 1 always. */
  openShare: number
  /** How far the line begins above its middle for resistance outside the cylinder, as a share of it; falls evenly. */
  early?: number
}

export const HEALTHY: CylinderWave = {
  latePct: 3,
  scatterPct: 4,
  firingKv: 9.5,
  burnMs: 1.45,
  midKv: 1.95,
  openShare: 0,
}

/** A spark into the exhaust stroke: low, short of pressure, and blind to the mixture. */
const WASTED = { latePct: 0, firingKv: 3, midKv: 0.9, burnMs: 1.7, early: 0 } as const

export interface EngineRun {
  firingOrder: readonly number[]
  cylinders: ReadonlyMap<number, CylinderWave>
  rpm: number
  /** Half the swing of the idle, rpm, and its period, s. */
  swingRpm: number
  swingS: number
  /** Firings of each cylinder. */
  cycles: number
  sampleHz: number
  /** One column for the engine and a sync, or one a cylinder. */
  pickups: 'one' | 'each'
  /** Wasted spark: whose plug fires along with each cylinder's, into its exhaust stroke. */
  partners?: ReadonlyMap<number, number>
}

/** Columns of a capture: kV of each pickup, and the sync's volts where there is one. */
export interface Columns {
  secondary: Float32Array[]
  sync: Float32Array | undefined
}

/** Time the coil is switched on; one coil for all has less at speed, since its burn must end first. */
const DWELL_MS = 5
const DWELL_SHARE = 0.6
const LEAD_S = 0.02
/** Step of the recorder, kV, and how many of them it has on either side. */
export const STEP_KV = 0.03
export const TOP_STEPS = 1000

/** Draws the samples of a run; positive-going pulses are negative kV, as most coils fire. */
export function drawWaves(run: EngineRun, random: Random): Columns {
  const { firingOrder, sampleHz } = run
  const instants = firingInstants(run, random)
  const rows = Math.ceil((instants.at(-1)! + LEAD_S) * sampleHz)
  const secondary = Array.from(
    { length: run.pickups === 'one' ? 1 : firingOrder.length },
    () => new Float32Array(rows),
  )
  const sync = run.pickups === 'one' ? new Float32Array(rows) : undefined
  const dwellMs =
    run.pickups === 'one'
      ? Math.min(DWELL_MS, (DWELL_SHARE * 120_000) / run.rpm / firingOrder.length)
      : DWELL_MS
  instants.forEach((t, i) => {
    const cylinder = firingOrder[i % firingOrder.length]!
    const column = secondary[run.pickups === 'one' ? 0 : cylinder - 1]!
    addEvent(column, Math.round(t * sampleHz), {
      of: run.cylinders.get(cylinder)!,
      sampleHz,
      random,
      dwellMs,
    })
    const partner = run.partners?.get(cylinder)
    if (partner !== undefined)
      addEvent(secondary[partner - 1]!, Math.round(t * sampleHz), {
        of: { ...run.cylinders.get(partner)!, ...WASTED },
        sampleHz,
        random,
      })
    if (sync && i % firingOrder.length === 0)
      sync.fill(5, Math.round(t * sampleHz), Math.round((t + 0.0005) * sampleHz))
  })
  const noise = Float32Array.from(
    { length: NOISE_LENGTH },
    () => 0.02 * (random.uniform() + random.uniform() - 1),
  )
  for (const column of secondary)
    for (let i = 0; i < rows; i++)
      column[i] = clipped(Math.round((column[i]! + noise[(i * 31) % NOISE_LENGTH]!) / STEP_KV)) * STEP_KV
  return { secondary, sync }
}

/** Prime, so that the noise repeats in no beat of the engine. */
const NOISE_LENGTH = 7919
const clipped = (steps: number): number => Math.max(-TOP_STEPS, Math.min(TOP_STEPS - 1, steps))

/** Breakdown instants in firing order, s, on an idle that may swing. */
function firingInstants({ firingOrder, rpm, swingRpm, swingS, cycles }: EngineRun, random: Random): number[] {
  const phase = 2 * Math.PI * random.uniform()
  let t = LEAD_S
  return Array.from({ length: firingOrder.length * cycles }, () => {
    const at = t
    const speed = rpm + swingRpm * Math.sin((2 * Math.PI * t) / swingS + phase) + 3 * random.gaussian()
    t += 120 / speed / firingOrder.length
    return at
  })
}

function addEvent(
  column: Float32Array,
  at: number,
  {
    of,
    sampleHz,
    random,
    dwellMs = DWELL_MS,
  }: { of: CylinderWave; sampleHz: number; random: Random; dwellMs?: number },
): void {
  const perMs = sampleHz / 1000
  const open = random.uniform() < of.openShare
  const firing = Math.max(2.5, of.firingKv + 0.6 * random.gaussian())
  const burn = of.burnMs * (1 + 0.03 * random.gaussian())
  const late = (of.latePct + of.scatterPct * random.gaussian()) / 100
  const mid = of.midKv * (1 + 0.02 * random.gaussian())
  const write = (fromMs: number, toMs: number, kv: (ms: number) => number) => {
    const first = Math.max(0, at + Math.ceil(fromMs * perMs))
    const last = Math.min(column.length, at + Math.ceil(toMs * perMs))
    for (let i = first; i < last; i++) column[i] = column[i]! + kv((i - at) / perMs)
  }
  // the coil is switched on: the other way round, dying away
  write(-dwellMs, 0, (ms) => {
    const s = ms + dwellMs
    return 0.5 * Math.exp(-s / 1.7) + 0.25 * Math.exp(-s / 0.15) * Math.cos(2 * Math.PI * 8 * s)
  })
  if (open) return write(-0.085, 9, (ms) => -openKv(ms, 23.5 + 0.4 * random.gaussian()))
  write(-0.035, 0, (ms) => -firing * (1 - (-ms / 0.035) ** 1.8))
  const start = mid * 1.12
  write(0, burn, (ms) => {
    const s = ms / burn
    const outside = (of.early ?? 0) * mid * (1 - s)
    const line = mid + (start - mid) * Math.exp(-s / 0.2) + mid * late * climb(s) + outside
    return -(line + (firing - start) * Math.exp(-ms / 0.008))
  })
  write(burn, burn + 4, (ms) => {
    const s = ms - burn
    return -1.4 * Math.exp(-s / 0.33) * Math.cos(2 * Math.PI * 3.8 * s)
  })
}

/** 0 at half the burn, 1 at nine tenths of it, smooth. */
const climb = (s: number): number => (s < 0.5 ? 0 : ((s - 0.5) / 0.4) ** 1.2)

/** What the voltage does where nothing burns: up to its height, then a slow ring. */
const openKv = (ms: number, peakKv: number): number =>
  ms < 0
    ? peakKv * Math.sin((Math.PI / 2) * (1 + ms / 0.085))
    : peakKv * Math.exp(-ms / 0.65) * Math.cos((2 * Math.PI * ms) / 0.42)
