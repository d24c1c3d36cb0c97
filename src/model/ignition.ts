import type { Random } from '../maths/random.ts'
import type { GapState } from './breakdown.ts'
import { capacitorSpark, type CapacitorSpark, type CapacitorUnit } from './capacitor-discharge.ts'
import type { Coil } from './coil.ts'
import type { CylinderState } from './cylinder-state.ts'
import { solveDischarge, type Discharge } from './discharge.ts'
import { drawPlug, type PlugDraw } from './draw-plug.ts'
import type { Firing } from './engine.ts'
import { drawHash, type Hash } from './hash.ts'

/** How the sparks are made. Multi-strike: every plug has its own coil, which sparks several times an ignition. */
export type IgnitionModel = InductiveIgnition | { kind: 'capacitor-discharge'; unit: CapacitorUnit }
type InductiveIgnition =
  | { kind: 'distributor'; coil: Coil }
  | { kind: 'coil-per-cylinder'; coil: Coil }
  | { kind: 'wasted-spark'; coil: Coil; pairs: readonly (readonly [number, number])[]; exhaust: GapState }
  | { kind: 'multi-strike'; coil: Coil; strikes: number; strikeGapMs: number; rechargeMs: number }

/** One coil's discharge at its place in the file. */
export interface InductiveEvent {
  kind: 'inductive'
  firing: Firing
  /** Switch-off on the capture's clock. */
  atS: number
  discharge: Discharge
  /** One a plug, in the order of `discharge.plugs`. */
  hashes: readonly (Hash | undefined)[]
  /** 0 for the first spark of an ignition. */
  strike: number
}

/** One capacitor's discharge at its place in the file. */
export interface CapacitorEvent {
  kind: 'capacitor'
  firing: Firing
  /** Trigger on the capture's clock. */
  atS: number
  spark: CapacitorSpark
}
export type Event = InductiveEvent | CapacitorEvent

/** A coil cannot charge longer than this share of the time from one of its discharges to the next. */
const LONGEST_DWELL_SHARE = 0.6

/** Coil discharges an engine cycle: one coil for all, one a cylinder, or one a pair firing twice a cycle. */
function coilGapS(ignition: InductiveIgnition, firing: Firing, cylinders: number): number {
  if (ignition.kind === 'distributor') return firing.intervalS
  return firing.intervalS * (ignition.kind === 'wasted-spark' ? cylinders / 2 : cylinders)
}

/** Draws and solves every discharge of one ignition. */
export function drawEvents(
  ignition: IgnitionModel,
  firing: Firing,
  states: ReadonlyMap<number, CylinderState>,
  random: Random,
): Event[] {
  const state = stateOf(states, firing.cylinder)
  const silent = random.uniform() < state.noSparkShare
  const events =
    ignition.kind === 'capacitor-discharge'
      ? [drawCapacitor(ignition.unit, firing, state, random)]
      : drawInductive(ignition, firing, states, random)
  return silent ? [] : events
}

function drawCapacitor(
  unit: CapacitorUnit,
  firing: Firing,
  state: CylinderState,
  random: Random,
): CapacitorEvent {
  const plug = drawPlug(
    { cylinder: firing.cylinder, state, gap: state.gap, wasted: false, lit: firing.lit },
    random,
  )
  return { kind: 'capacitor', firing, atS: firing.atS, spark: capacitorSpark(unit, plug) }
}

function drawInductive(
  ignition: InductiveIgnition,
  firing: Firing,
  states: ReadonlyMap<number, CylinderState>,
  random: Random,
): InductiveEvent[] {
  const state = stateOf(states, firing.cylinder)
  const strikes = ignition.kind === 'multi-strike' ? ignition.strikes : 1
  const events: InductiveEvent[] = []
  for (let strike = 0; strike < strikes; strike++) {
    const drawn = drawPlug(
      { cylinder: firing.cylinder, state, gap: state.gap, wasted: false, lit: firing.lit },
      random,
    )
    const partner =
      ignition.kind === 'wasted-spark' ? drawWasted(ignition, firing, states, random) : undefined
    const longestS = LONGEST_DWELL_SHARE * coilGapS(ignition, firing, states.size)
    const dwellS = Math.min(dwellMs(ignition, strike) / 1e3, longestS)
    const discharge = solveDischarge(
      ignition.coil,
      dwellS,
      partner === undefined ? [drawn] : [drawn, partner],
    )
    const hashes = discharge.plugs.map((wave) => drawHash(discharge, wave, random))
    events.push({
      kind: 'inductive',
      firing,
      atS: firing.atS + strikeDelayS(ignition, strike),
      discharge,
      hashes,
      strike,
    })
  }
  return events
}

function drawWasted(
  ignition: Extract<InductiveIgnition, { kind: 'wasted-spark' }>,
  firing: Firing,
  states: ReadonlyMap<number, CylinderState>,
  random: Random,
): PlugDraw {
  const pair = ignition.pairs.find((p) => p.includes(firing.cylinder))
  if (pair === undefined) throw new RangeError(`no pair has cylinder ${firing.cylinder}`)
  const cylinder = pair[0] === firing.cylinder ? pair[1] : pair[0]
  const state = stateOf(states, cylinder)
  return drawPlug(
    { cylinder, state, gap: { ...ignition.exhaust, gapMm: state.gap.gapMm }, wasted: true, lit: true },
    random,
  )
}

const dwellMs = (ignition: InductiveIgnition, strike: number): number =>
  ignition.kind === 'multi-strike' && strike > 0 ? ignition.rechargeMs : ignition.coil.dwellMs

const strikeDelayS = (ignition: InductiveIgnition, strike: number): number =>
  ignition.kind === 'multi-strike' ? (strike * ignition.strikeGapMs) / 1e3 : 0

export function stateOf(states: ReadonlyMap<number, CylinderState>, cylinder: number): CylinderState {
  const state = states.get(cylinder)
  if (state === undefined) throw new RangeError(`no state for cylinder ${cylinder}`)
  return state
}
