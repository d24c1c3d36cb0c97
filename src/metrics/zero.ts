import type { EventWave } from '../ignition/event.ts'
import { noiseSd } from '../ignition/quiet-level.ts'
import { sum } from '../maths/mean-sd.ts'
import { median } from '../maths/median.ts'
import { stepUncertainty } from '../maths/quantisation.ts'
import { withBudget } from './budget.ts'
import type { EventFigure } from './figures.ts'
import { withoutSteps } from './local-level.ts'
import { EARLY } from './slopes.ts'
import type { SparkLine } from './spark-line.ts'

/** Doubt about the level before an event, kV: what moves it from event to event, and what the recorder's steps leave open. */
export interface ZeroDoubt {
  movesU: number
  stepsU: number
}

/**
 * A voltage with the doubt about the zero it is counted from. Differences of levels of one event are free of it: take
 * them first.
 */
export function aboveZero(level: EventFigure<'kV'>, { movesU, stepsU }: ZeroDoubt): EventFigure<'kV'> {
  return level.ok
    ? withBudget(level.value, 'kV', [
        ...(level.budget ?? []),
        { source: 'noise', u: movesU },
        { source: 'zero', u: stepsU },
      ])
    : level
}

/**
 * What a recorder's steps leave open in the level before an event, kV: at rest nothing but noise moves the samples over
 * the steps, and a level that noise does not carry across one reads the same wherever in that step it lies. A zero that
 * wanders from event to event spreads them further.
 *
 * @param seen  noise of samples that cross many steps (on a spark line, say), as the stepped samples show it, kV: at
 *              rest it depends on where in a step the level lies. The steps' own part of it is taken out.
 * @source      Sheppard's correction: Kendall and Stuart 1977, The Advanced Theory of Statistics 1, 3.18; `stepUncertainty`
 */
export const zeroStepsU = (seen: { noiseKv: number; quantumKv: number; movesU: number }): number =>
  stepUncertainty(seen.quantumKv, Math.hypot(withoutSteps(seen.noiseKv, seen.quantumKv), seen.movesU))

/**
 * Standard uncertainty of the level before an event, kV, from the changes of that level from one event to the next:
 * hum and drift move it between the moment it is read and the burn about as much.
 *
 * @param baselinesKv  of one channel's events in order of time
 * @returns            0 for a single event, where nothing shows it
 * @source             half the mean square successive difference (von Neumann 1941, Annals of Mathematical Statistics 12)
 */
export function zeroUncertainty(baselinesKv: readonly number[]): number {
  const squares = baselinesKv.slice(1).map((v, i) => (v - baselinesKv[i]!) ** 2)
  return squares.length === 0 ? 0 : Math.sqrt(sum(squares) / squares.length / 2)
}

/**
 * Doubt about the zero of one channel.
 * @param waves  its events in order of time; lines: those of them that have a spark line
 */
export function zeroDoubt(waves: readonly EventWave[], lines: readonly SparkLine[]): ZeroDoubt {
  const movesU = zeroUncertainty(waves.map((w) => w.baselineKv))
  const onLines = lines.map(({ wave, from, to }) =>
    noiseSd(wave.kv.subarray(Math.ceil(from + EARLY.from * (to - from)), Math.floor(to))),
  )
  const noiseKv = median(onLines) ?? median(waves.map((w) => w.noiseKv)) ?? 0
  return { movesU, stepsU: zeroStepsU({ noiseKv, quantumKv: waves[0]?.quantumKv ?? 0, movesU }) }
}
