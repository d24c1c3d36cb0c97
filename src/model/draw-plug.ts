import type { Random } from '../maths/random.ts'
import { breakdownKv, type GapState } from './breakdown.ts'
import type { BurningGap } from './burn.ts'
import type { CylinderState } from './cylinder-state.ts'
import { glowKvAtReference } from './glow.ts'

/** One plug in one event: the cylinder's state with this event's own luck. */
export interface PlugDraw {
  cylinder: number
  state: CylinderState
  open: boolean
  /** Infinity where the circuit is open. */
  breakdownKv: number
  gap: BurningGap
  /** Its spark lights the charge. */
  lit: boolean
  /** Shares of the burn at which the line breaks and strikes again, ascending. */
  restrikeShares: readonly number[]
}

/** Without a flame the gap stays short of ions: how much its voltage climbs by 90 % of the burn. Our choice, no source. */
const UNLIT_KV = 0.25
/** Draws beyond this many standard deviations are pulled in, so that no single event leaves the physics. */
const FURTHEST = 2.5

const scatter = (random: Random): number => Math.max(-FURTHEST, Math.min(FURTHEST, random.gaussian()))

/** Poisson number of restrikes spread over the burn's middle. */
function drawRestrikes(mean: number, random: Random): number[] {
  const shares: number[] = []
  const limit = Math.exp(-mean)
  for (let product = random.uniform(); product > limit; product *= random.uniform())
    shares.push(0.2 + 0.7 * random.uniform())
  return shares.sort((a, b) => a - b)
}

/**
 * Draws one event at one plug. The number of draws does not depend on what is drawn for the line itself,
 * so that changing one cylinder leaves the luck of the others alone as far as can be.
 *
 * @param plug  gap: the cylinder's own on its firing stroke, the exhaust's on a wasted one; lit: does it light the charge
 */
export function drawPlug(
  plug: { cylinder: number; state: CylinderState; gap: GapState; wasted: boolean; lit: boolean },
  random: Random,
): PlugDraw {
  const { state, gap, wasted, lit } = plug
  const breakdown = breakdownKv(gap) * state.breakdownFactor * (1 + state.breakdownScatter * scatter(random))
  const glow = glowKvAtReference(gap) * (1 + state.glowScatter * scatter(random))
  const mixture = state.mixtureKv + state.mixtureScatterKv * scatter(random)
  const open = random.uniform() < state.openShare
  const restrikeShares = wasted ? [] : drawRestrikes(state.restrikes, random)
  return {
    cylinder: plug.cylinder,
    state,
    lit,
    open,
    breakdownKv: open ? Infinity : breakdown,
    restrikeShares,
    gap: {
      glowKv: glow,
      seriesKohm: state.seriesKohm,
      rotorKv: state.rotorKv,
      mixtureKv: wasted ? 0 : mixture + (lit ? 0 : UNLIT_KV),
    },
  }
}
