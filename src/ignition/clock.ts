import type { Recording } from '../capture/capture.ts'
import type { SampleRange } from './event.ts'

type Clocked = Pick<Recording, 'startS' | 'sampleS' | 'jumps'>

/** Instant of a fractional sample on the capture's own clock, s, the clock's jumps before it included. */
export function instantS({ startS, sampleS, jumps = [] }: Clocked, sample: number): number {
  return jumps.reduce((t, jump) => (sample > jump.row - 0.5 ? t + jump.extraS : t), startS + sample * sampleS)
}

/** Whether rows are missing or repeated within a stretch of samples. */
export const jumpsWithin = ({ jumps = [] }: Clocked, { from, to }: SampleRange): boolean =>
  jumps.some(({ row }) => row > from && row <= to)
