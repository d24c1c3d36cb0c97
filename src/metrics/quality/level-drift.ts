import { median } from '../../maths/median.ts'
import type { LevelDrift } from './facts.ts'

/**
 * Drift of the level before the events of one channel.
 *
 * @param baselinesKv  level taken off each event, in order of time, kV; not changed
 * @returns            both 0 for fewer than two events
 */
export function levelDrift(baselinesKv: readonly number[]): LevelDrift {
  if (baselinesKv.length < 2) return { rangeKv: 0, stepKv: 0 }
  const range = baselinesKv.reduce(([low, high], v) => [Math.min(low, v), Math.max(high, v)] as const, [
    Infinity,
    -Infinity,
  ] as const)
  const steps = baselinesKv.slice(1).map((v, i) => Math.abs(v - baselinesKv[i]!))
  return { rangeKv: range[1] - range[0], stepKv: median(steps)! }
}
