import { capacitorMj, secondaryHenry, secondaryStartA, type Coil } from './coil.ts'
import { coilRing, firstExtremeS, ringKv, type Ring } from './ring.ts'
import { lineKv, solveBurn, type Burn } from './burn.ts'
import type { PlugDraw } from './draw-plug.ts'
import { glowKv } from './glow.ts'

/** One plug's part in a discharge; times in s from switch-off. */
export interface PlugWave {
  plug: PlugDraw
  /** Its gap breaks down; undefined where it never does. */
  breakdownS: number | undefined
  /** Share of the coil's voltage on this plug while nothing has broken down, and again after the spark. */
  riseShare: number
  ringShare: number
}

/** One discharge of one coil into its plugs, solved. Times in s from switch-off. */
export interface Discharge {
  coil: Coil
  dwellS: number
  rise: Ring
  /** Firing plug first; a wasted-spark coil has the wasted plug second. */
  plugs: readonly PlugWave[]
  /** From the last breakdown on; undefined where not every gap breaks down. */
  burn: Burn | undefined
  burnFromS: number
  endS: number | undefined
  /** What rings on after the spark's end, on the whole coil. */
  ring: Ring | undefined
}

const HALVINGS = 60
/** What is left on a gap that has broken down while its neighbour holds. Our choice, no source. */
const STRAY_SHARE = 0.04

/** The current does not stop at once: time as the secondary feels it, during and after the fall. */
export const feltS = (coil: Coil, tS: number): number => {
  const fallS = coil.switchOffUs * 1e-6
  return tS < fallS ? (tS * tS) / (2 * fallS) : tS - fallS / 2
}

const clockS = (coil: Coil, feltTimeS: number): number => {
  const fallS = coil.switchOffUs * 1e-6
  return feltTimeS < fallS / 2 ? Math.sqrt(2 * fallS * feltTimeS) : feltTimeS + fallS / 2
}

/** A gap that has broken down while its neighbour in series still holds passes next to nothing: the glow's holding voltage, kV. */
export const waitingKv = (plug: PlugDraw): number => glowKv(plug.gap.glowKv, plug.state.holdA)

/** Gaps in series go out together, at the first to let go. */
const holdA = (plugs: readonly PlugDraw[]): number => Math.max(...plugs.map((plug) => plug.state.holdA))

/** When the rising coil voltage reaches a level, s from switch-off; undefined if it never does. */
function reachS(coil: Coil, rise: Ring, kv: number): number | undefined {
  let low = 0
  let high = firstExtremeS(rise)
  if (ringKv(rise, high) < kv) return undefined
  for (let n = 0; n < HALVINGS; n++) {
    const middle = (low + high) / 2
    if (ringKv(rise, middle) < kv) low = middle
    else high = middle
  }
  return clockS(coil, high)
}

/** Breakdown instants: gaps in series share the voltage evenly until the weakest breaks; the next then takes all. */
function breakdowns(coil: Coil, rise: Ring, plugs: readonly PlugDraw[]): (number | undefined)[] {
  const [first, second] = plugs
  if (first === undefined) return []
  if (second === undefined) return [reachS(coil, rise, first.breakdownKv)]
  const weakKv = Math.min(first.breakdownKv, second.breakdownKv)
  const weakS = reachS(coil, rise, 2 * weakKv)
  if (weakS === undefined) return [undefined, undefined]
  const weak = first.breakdownKv === weakKv ? first : second
  const strong = weak === first ? second : first
  const needKv = Math.max(strong.breakdownKv + waitingKv(weak), 2 * weakKv)
  const strongS = reachS(coil, rise, needKv)
  return weak === first ? [weakS, strongS] : [strongS, weakS]
}

/** Current left in the coil once its capacitance has been charged to the breakdown voltage. */
function leftA(coil: Coil, startA: number, kv: number): number {
  const spentJ = capacitorMj(coil.secondaryPf, kv) * 1e-3
  return Math.sqrt(Math.max(startA * startA - (2 * spentJ) / secondaryHenry(coil), 0))
}

/** The burn through every gap in series, if all have broken down and current enough is left. */
function burnThrough(coil: Coil, plugs: readonly PlugDraw[], startA: number): Burn | undefined {
  const burn = solveBurn({
    gaps: plugs.map((plug) => plug.gap),
    inductanceH: secondaryHenry(coil),
    windingKohm: coil.windingKohm,
    startA,
    holdA: holdA(plugs),
  })
  return burn.burnS > 0 ? burn : undefined
}

/**
 * Solves one discharge: rise on the coil's own resonance, breakdown, burn, and the ring of what is left.
 *
 * @param plugs  one plug, or the firing and the wasted plug of a pair, in series across the coil
 */
export function solveDischarge(coil: Coil, dwellS: number, plugs: readonly PlugDraw[]): Discharge {
  const startA = secondaryStartA(coil, dwellS)
  const rise = coilRing(coil, 0, startA)
  const at = breakdowns(coil, rise, plugs)
  const fromS = Math.max(...at.map((s) => s ?? Infinity))
  const spark = Number.isFinite(fromS)
  const burn = spark
    ? burnThrough(coil, plugs, leftA(coil, startA, ringKv(rise, feltS(coil, fromS))))
    : undefined
  const endKv = burn === undefined ? [] : plugs.map((plug) => lineKv(burn, plug.gap, burn.burnS))
  const wholeKv = endKv.reduce((sum, kv) => sum + kv, 0)
  return {
    coil,
    dwellS,
    rise,
    burn,
    burnFromS: fromS,
    endS: burn === undefined ? undefined : fromS + burn.burnS,
    ring: burn === undefined ? undefined : coilRing(coil, wholeKv, holdA(plugs)),
    plugs: plugs.map((plug, i) =>
      burn === undefined
        ? {
            plug,
            breakdownS: undefined,
            riseShare: unburntShare(plug, plugs),
            ringShare: unburntShare(plug, plugs),
          }
        : { plug, breakdownS: at[i], riseShare: 1 / plugs.length, ringShare: endKv[i]! / wholeKv },
    ),
  }
}

/** Without a burn nearly all of the coil's voltage stands on the stronger gap; the weaker one conducts to its stray capacitance. */
function unburntShare(plug: PlugDraw, plugs: readonly PlugDraw[]): number {
  if (plugs.length === 1) return 1
  const strongest = plugs.reduce((a, b) => (b.breakdownKv > a.breakdownKv ? b : a))
  return plug === strongest ? 1 - STRAY_SHARE : STRAY_SHARE
}
