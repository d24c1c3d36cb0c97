import type { Taken } from './timed.ts'

/** One line of the table: several runs of one thing, and of the yardstick where it ran in turn with it. */
export interface Row {
  what: string
  own: readonly Taken[]
  peer: readonly Taken[] | undefined
  /** Wanted ratio of wall times. */ goal?: number
}

const middle = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!
const span = (values: readonly number[]) =>
  `${Math.min(...values).toFixed(2)}-${Math.max(...values).toFixed(2)}`

/** `median (least-most) s wall, s CPU, MiB`, and the ratio to the yardstick run in turn with it. */
export function sayRow({ what, own, peer, goal }: Row): string {
  const figures = (runs: readonly Taken[]) => {
    const walls = runs.map((r) => r.wallS)
    return `${middle(walls).toFixed(2)} s (${span(walls)}), CPU ${middle(runs.map((r) => r.cpuS)).toFixed(2)} s, peak ${middle(runs.map((r) => r.peakMib)).toFixed(0)} MiB`
  }
  const lines = [what, `  burnline   ${figures(own)}`]
  if (peer) {
    const ratio = middle(own.map((r) => r.wallS)) / middle(peer.map((r) => r.wallS))
    lines.push(
      `  yardstick  ${figures(peer)}`,
      `  ratio of wall times ${ratio.toFixed(2)}${goal === undefined ? '' : ` (goal ${goal}: ${ratio <= goal ? 'met' : 'not met'})`}`,
    )
  }
  return lines.join('\n')
}

/** Ratio of two rows' median wall times. */
export const speedUp = (slow: Row, fast: Row): number =>
  middle(slow.own.map((r) => r.wallS)) / middle(fast.own.map((r) => r.wallS))
