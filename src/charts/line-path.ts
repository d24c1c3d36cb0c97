import type { DrawnLine } from '../records/drawn-traces.ts'
import type { Axis } from './nice-ticks.ts'

/** A drawing area of `widthPt` by `heightPt` under two axes; its origin is its top left corner. */
export interface Frame { x: Axis; y: Axis; widthPt: number; heightPt: number }

export const xPt = (frame: Frame, x: number): number => ((x - frame.x.low) / (frame.x.high - frame.x.low)) * frame.widthPt
export const yPt = (frame: Frame, y: number): number => ((frame.y.high - y) / (frame.y.high - frame.y.low)) * frame.heightPt

type Point = readonly [number, number]
// Two decimals of a point are finer than any printer; -0 would print as a sign.
const coordinate = (v: number) => String(Math.round(v * 100) / 100 + 0)

/** The part of segment a-b inside the area (Liang and Barsky's parametric clip), or undefined. */
function inside(a: Point, b: Point, frame: Frame): [Point, Point] | undefined {
  let from = 0
  let to = 1
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
  for (const [p, q] of [[-dx, a[0]], [dx, frame.widthPt - a[0]], [-dy, a[1]], [dy, frame.heightPt - a[1]]] as const) {
    if (p === 0 && q < 0) return undefined
    if (p < 0) from = Math.max(from, q / p)
    if (p > 0) to = Math.min(to, q / p)
  }
  if (from > to) return undefined
  const at = (t: number): Point => (t === 0 ? a : t === 1 ? b : [a[0] + t * dx, a[1] + t * dy])
  return [at(from), at(to)]
}

/**
 * A line as one SVG path in pt from the frame's top left corner, cut at the frame's edges.
 * One ready path is one mark, where a mark per point would be most of a chart's cost. Empty when nothing lies inside.
 */
export function linePath(line: DrawnLine, frame: Frame): string {
  const parts: string[] = []
  let end: Point | undefined
  for (let i = 1; i < line.x.length; i += 1) {
    const a: Point = [xPt(frame, line.x[i - 1]!), yPt(frame, line.y[i - 1]!)]
    const b: Point = [xPt(frame, line.x[i]!), yPt(frame, line.y[i]!)]
    const cut = inside(a, b, frame)
    if (!cut) continue
    if (end !== cut[0] && (end?.[0] !== cut[0][0] || end[1] !== cut[0][1])) parts.push(`M${coordinate(cut[0][0])},${coordinate(cut[0][1])}`)
    parts.push(`L${coordinate(cut[1][0])},${coordinate(cut[1][1])}`)
    end = cut[1]
  }
  return parts.join('')
}
