import type { Recording } from '../capture/capture.ts'

/** Rows at which the clock jumps, rising: what lies before one does not go on behind it. */
export type Walls = readonly number[]

export const wallsOf = ({ jumps = [] }: Pick<Recording, 'jumps'>): Walls => jumps.map(({ row }) => row)

/** First sample of the stretch without a jump that a sample lies in, and the first one past it. */
export function stretchAt(walls: Walls, sample: number, samples: number): { from: number; to: number } {
  let low = 0
  let high = walls.length
  while (low < high) {
    const mid = (low + high) >> 1
    if (walls[mid]! <= sample) low = mid + 1
    else high = mid
  }
  return { from: walls[low - 1] ?? 0, to: walls[low] ?? samples }
}
