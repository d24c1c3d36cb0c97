import type { CaptureEntry } from '../job/schema.ts'
import type { SpeedMeasures } from '../metrics/figures.ts'

/** How the engine ran, as far as it bears on what a line may be held against. `idle` is a warm one. */
export const RUNNINGS = ['idle', 'cold', 'off idle', 'snap', 'cranking'] as const
export type Running = (typeof RUNNINGS)[number]

/** Where the limits of an idle do not hold by themselves, and the fellows are the measure. */
export const BESIDE_FELLOWS = ['cold', 'off idle', 'snap'] as const satisfies readonly Running[]

/**
 * How the engine ran in a capture: as its entry says, unless an idle is plainly no idle by its own speed.
 *
 * @param idleMostRpm  mean speed above which a capture is not one of an idle, whatever it is called
 */
export function runningOf(
  { condition, engine }: Pick<CaptureEntry, 'condition' | 'engine'>,
  { mean }: Pick<SpeedMeasures, 'mean'>,
  idleMostRpm: number,
): Running {
  if (condition === 'snap' || condition === 'cranking') return condition
  const fast = mean.ok && mean.low > idleMostRpm
  if (condition !== 'idle' || fast) return 'off idle'
  return engine === 'cold' ? 'cold' : 'idle'
}
