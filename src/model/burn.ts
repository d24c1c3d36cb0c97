import { glowKv } from './glow.ts'

/** One burning gap as seen from where the pickup sits. */
export interface BurningGap {
  /** Gap voltage of the glow at 40 mA, kV. */
  glowKv: number
  /** Gap voltage that mixture or compression add by 90 % of the burn; below 0 for a falling line. */
  mixtureKv: number
  /** Resistance between pickup and gap: lead, rotor, plug. */
  seriesKohm: number
  /** Constant drop between pickup and gap: a distributor's rotor gap. */
  rotorKv: number
}

export interface BurnCircuit {
  gaps: readonly BurningGap[]
  inductanceH: number
  /** Inside the coil, so not seen by the pickup, but slowing the current anyway. */
  windingKohm: number
  startA: number
  /** The glow cannot hold below this current. */
  holdA: number
}

/** The burn as solved: current at even steps from breakdown, and the instant the glow goes out. */
export interface Burn {
  circuit: BurnCircuit
  stepS: number
  /** shape (n), the last one at or below the holding current */
  currentA: Float64Array
  burnS: number
}

/** Fine against the millisecond of a burn, coarse enough to solve thousands of events a second. */
const STEP_S = 4e-6
/** The burn's own length shifts the mixture term; this many rounds settle it to well under a microsecond. */
const ROUNDS = 24
const SETTLED_S = 1e-8
/** No burn of an ignition lasts this long; a circuit that asks for it is a mistake of its parameters. */
const LONGEST_S = 12e-3

/** Growth of the mixture term over the burn: nothing to the midpoint, then straight to 1 at 90 % and on to the end. */
const mixtureShape = (share: number): number => Math.max(0, (Math.min(share, 1) - 0.5) / 0.4)

/** Voltage of one gap alone, kV, at a current and at a share (0..1) of the burn. */
const gapKv = (gap: BurningGap, currentA: number, share: number): number =>
  glowKv(gap.glowKv, currentA) + gap.mixtureKv * mixtureShape(share)

/** Voltage of one gap as the pickup sees it, kV. */
const seenKv = (gap: BurningGap, currentA: number, share: number): number =>
  gapKv(gap, currentA, share) + currentA * gap.seriesKohm + gap.rotorKv

/** L dI/dt = -(sum of gap voltages + I R): A/s at a current and share of the burn. */
function slopeAPerS(circuit: BurnCircuit, currentA: number, share: number): number {
  const heldA = Math.max(currentA, circuit.holdA)
  let kv = heldA * circuit.windingKohm
  for (const gap of circuit.gaps) kv += seenKv(gap, heldA, share)
  return (-kv * 1e3) / circuit.inductanceH
}

/** One pass with the burn's length taken as `guessS`; midpoint steps until the glow goes out. */
function pass(circuit: BurnCircuit, guessS: number): Burn {
  const currentA: number[] = [circuit.startA]
  let now = circuit.startA
  for (let n = 0; now > circuit.holdA; n++) {
    if (n * STEP_S > LONGEST_S) throw new RangeError('burn does not end: falling gap voltage reaches zero')
    const half = now + (slopeAPerS(circuit, now, (n * STEP_S) / guessS) * STEP_S) / 2
    now += slopeAPerS(circuit, half, ((n + 0.5) * STEP_S) / guessS) * STEP_S
    currentA.push(now)
  }
  const last = currentA.length - 1
  if (last === 0) return { circuit, stepS: STEP_S, currentA: Float64Array.from(currentA), burnS: 0 }
  const before = currentA[last - 1]!
  const burnS = (last - 1 + (before - circuit.holdA) / (before - now)) * STEP_S
  return { circuit, stepS: STEP_S, currentA: Float64Array.from(currentA), burnS }
}

/**
 * Solves the burn: the coil's current falls from its start to the holding current against the gaps' voltages.
 * The mixture term is tied to shares of the burn's own length, so passes are repeated until that length stands.
 *
 * @returns burnS 0 where the start current is not above the holding current
 */
export function solveBurn(circuit: BurnCircuit): Burn {
  let burn = pass(circuit, 1.4e-3)
  if (circuit.gaps.every((gap) => gap.mixtureKv === 0)) return burn
  for (let round = 0; round < ROUNDS && burn.burnS > 0; round++) {
    const next = pass(circuit, burn.burnS)
    const settled = Math.abs(next.burnS - burn.burnS) < SETTLED_S
    burn = next
    if (settled) break
  }
  return burn
}

/** Current at t after breakdown, A, straight between the solved steps, never below the holding current. */
function burnCurrentA(burn: Burn, tS: number): number {
  const at = Math.min(Math.max(tS / burn.stepS, 0), burn.currentA.length - 1)
  const from = Math.min(Math.floor(at), burn.currentA.length - 2)
  const low = burn.currentA[Math.max(from, 0)]!
  const high = burn.currentA[from + 1]!
  return Math.max(low + (at - from) * (high - low), burn.circuit.holdA)
}

/** Line of one gap at t after breakdown as the pickup sees it, kV. */
export const lineKv = (burn: Burn, gap: BurningGap, tS: number): number =>
  seenKv(gap, burnCurrentA(burn, tS), tS / burn.burnS)

/** Energy that the gap itself took, mJ: integral of V I dt by the trapezoid rule over the solved steps. */
export function gapEnergyMj(burn: Burn, gap: BurningGap): number {
  const watts = (i: number): number => {
    const amps = Math.max(burn.currentA[i]!, burn.circuit.holdA)
    return gapKv(gap, amps, (i * burn.stepS) / burn.burnS) * amps * 1e3
  }
  let joules = 0
  for (let i = 1; i < burn.currentA.length; i++) joules += ((watts(i - 1) + watts(i)) / 2) * burn.stepS
  return joules * 1e3
}
