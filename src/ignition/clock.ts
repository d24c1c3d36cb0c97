import type { Recording } from '../capture/capture.ts'
import type { SampleRange } from './event.ts'

type Clocked = Pick<Recording, 'startS' | 'sampleS' | 'jumps'>

/** Instant of a fractional sample on the capture's own clock, s, the clock's jumps before it included. */
export function instantS({ startS, sampleS, jumps = [] }: Clocked, sample: number): number {
  return jumps.reduce((t, jump) => (sample > jump.row - 0.5 ? t + jump.extraS : t), startS + sample * sampleS)
}

/** Fractional sample at an instant of the capture's own clock: the inverse of `instantS`. */
export function sampleAt({ startS, sampleS, jumps = [] }: Clocked, atS: number): number {
  let extraS = 0
  for (const jump of jumps) {
    if (atS - startS - extraS - jump.extraS < (jump.row - 0.5) * sampleS) break
    extraS += jump.extraS
  }
  return (atS - startS - extraS) / sampleS
}

/** Index of the frame a sample lies in; undefined where the record is one. */
export function frameAt({ frames = [] }: Pick<Recording, 'frames'>, sample: number): number | undefined {
  if (frames.length === 0) return undefined
  let low = 0
  let high = frames.length
  while (high - low > 1) {
    const mid = (low + high) >> 1
    if (frames[mid]!.row - 0.5 < sample) low = mid
    else high = mid
  }
  return low
}

/** Instant of a sample by its frame's own stamps, s, where they start anew in every frame; undefined where time goes on. */
export function restartedS(
  capture: Pick<Recording, 'frames' | 'sampleS'>,
  sample: number,
): number | undefined {
  const { frames = [], sampleS } = capture
  if (!frames.some((f, i) => i > 0 && f.clockS <= frames[i - 1]!.clockS)) return undefined
  const { row, clockS } = frames[frameAt(capture, sample)!]!
  return clockS + (sample - row) * sampleS
}

/** Whether rows are missing or repeated within a stretch of samples. */
export const jumpsWithin = ({ jumps = [] }: Clocked, { from, to }: SampleRange): boolean =>
  jumps.some(({ row }) => row > from && row <= to)
