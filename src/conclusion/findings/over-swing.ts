import { limit } from '../../limits/limits.ts'
import { K95 } from '../../maths/normal.ts'
import type { JobFinding, Size } from '../finding.ts'
import type { Seen, SeenCylinder } from '../seen.ts'
import { burnFinding, farthest, type BurnGroup } from './burns.ts'

/** Ends of the swing of the speed, as a finding's `reading` has them. */
const SWING_ENDS = ['speed low', 'speed high'] as const
export type SwingEnd = (typeof SWING_ENDS)[number]

/** The end of the swing a finding speaks of; undefined where it speaks of the whole. */
export const swingEndOf = ({ reading }: JobFinding): SwingEnd | undefined =>
  SWING_ENDS.find((end) => end === reading)

const DIRECTIONS = ['lean', 'falling'] as const

/**
 * Cylinders at idle whose mixture is out of order at one end of the swing of the speed, while the verdict, which speaks of
 * the middle, calls it in order or near the limit: a leak weighs more while the idle dips. A finding of its own, since
 * neither the middle nor the other end says it.
 *
 * @param of  cylinders whose verdict is in order or unsure
 */
export function overSwing(seen: Seen, group: BurnGroup, of: readonly SeenCylinder[]): JobFinding[] {
  const edge = limit(seen.limits, 'lateRisePct')
  const idle = of.filter((c) => c.running === 'idle')
  return DIRECTIONS.flatMap((direction) =>
    SWING_ENDS.flatMap((end) => {
      const own = idle.flatMap((c) => {
        const size = sizeAt(c, end, edge)
        const beyond = size && (direction === 'lean' ? size.low > edge : size.high < -edge)
        return beyond ? [{ c, size }] : []
      })
      if (own.length === 0) return []
      const found = burnFinding(seen, group, {
        kind: 'mixture',
        of: own.map(({ c }) => c),
        direction,
        size: farthest(own.map(({ size }) => size)),
      })
      return [{ ...found, reading: end }]
    }),
  )
}

/** Late rise at one end of the swing: its own line's interval there, with what all events of the capture share. */
function sizeAt(
  { riseWithSpeed: w, figures: { lateRisePct } }: SeenCylinder,
  end: SwingEnd,
  edge: number,
): Size | undefined {
  if (!w || !lateRisePct.ok) return undefined
  const shared = K95 * Math.hypot(...lateRisePct.budget.filter((l) => SHARED.has(l.source)).map((l) => l.u))
  const [value, own] = end === 'speed low' ? [w.atLow, w.lowReach] : [w.atHigh, w.highReach]
  const reach = Math.hypot(own, shared)
  return { value, low: value - reach, high: value + reach, unit: '%', limitLow: -edge, limitHigh: edge }
}

const SHARED: ReadonlySet<string> = new Set(['instrument', 'method', 'zero', 'quantisation', 'pickup'])
