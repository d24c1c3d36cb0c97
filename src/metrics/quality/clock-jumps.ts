import type { Recording } from '../../capture/capture.ts'
import type { IgnitionEvent } from '../../ignition/event.ts'
import type { ClockJumps } from './facts.ts'

/** Gaps and repeats of the capture's clock, and the events marked as cut by one. */
export function clockJumps(
  { jumps: all = [], frames = [] }: Pick<Recording, 'jumps' | 'frames'>,
  events: readonly Pick<IgnitionEvent, 'flags'>[],
): ClockJumps {
  const starts = new Set(frames.map(({ row }) => row))
  const jumps = all.filter(({ row }) => !starts.has(row))
  const gaps = jumps.filter((j) => j.extraS > 0)
  return {
    gaps: gaps.length,
    repeats: jumps.length - gaps.length,
    missingS: gaps.reduce((sum, j) => sum + j.extraS, 0),
    events: events.filter((e) => e.flags.includes('clock_jump')).length,
  }
}
