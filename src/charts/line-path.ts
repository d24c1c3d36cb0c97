import type { DrawnLine } from '../records/drawn-traces.ts'
import type { Axis } from './nice-ticks.ts'

/** A drawing area of `widthPt` by `heightPt` under two axes; its origin is its top left corner. */
export interface Frame {
  x: Axis
  y: Axis
  widthPt: number
  heightPt: number
}

export const xPt = (frame: Frame, x: number): number =>
  ((x - frame.x.low) / (frame.x.high - frame.x.low)) * frame.widthPt
export const yPt = (frame: Frame, y: number): number =>
  ((frame.y.high - y) / (frame.y.high - frame.y.low)) * frame.heightPt

/**
 * Points that suffice to draw a line within `tolerancePt` of all of them, by the widening wedge: from the last kept point,
 * as long as one slope passes every point since, none of them is needed. One pass; x must not run backwards.
 */
function needed(xs: Float64Array, ys: Float64Array, tolerancePt: number): number[] {
  const kept = xs.length > 0 ? [0] : []
  let from = 0
  let low = -Infinity
  let high = Infinity
  for (let i = 1; i < xs.length; i += 1) {
    let dx = xs[i]! - xs[from]!
    let dy = ys[i]! - ys[from]!
    if (i > from + 1 && !(dx > 0 && dy >= low * dx && dy <= high * dx)) {
      from = i - 1
      kept.push(from)
      dx = xs[i]! - xs[from]!
      dy = ys[i]! - ys[from]!
      low = -Infinity
      high = Infinity
    }
    low = Math.max(low, dx > 0 ? (dy - tolerancePt) / dx : Infinity)
    high = Math.min(high, dx > 0 ? (dy + tolerancePt) / dx : -Infinity)
  }
  if (xs.length > 1) kept.push(xs.length - 1)
  return kept
}

interface Segment {
  x1: number
  y1: number
  x2: number
  y2: number
}

/** The part of a segment inside the area (Liang and Barsky's parametric clip), or undefined. */
function clipped({ x1, y1, x2, y2 }: Segment, frame: Frame): Segment | undefined {
  const dx = x2 - x1
  const dy = y2 - y1
  let from = 0
  let to = 1
  for (const [p, q] of [
    [-dx, x1],
    [dx, frame.widthPt - x1],
    [-dy, y1],
    [dy, frame.heightPt - y1],
  ] as const) {
    if (p === 0 && q < 0) return undefined
    if (p < 0) from = Math.max(from, q / p)
    if (p > 0) to = Math.min(to, q / p)
  }
  if (from > to) return undefined
  return {
    x1: x1 + from * dx,
    y1: y1 + from * dy,
    x2: to === 1 ? x2 : x1 + to * dx,
    y2: to === 1 ? y2 : y1 + to * dy,
  }
}

const within = (v: number, size: number) => v >= 0 && v <= size

/**
 * A line as runs of points in the data's own units, without points that no eye could tell, cut at the frame's edges: a run
 * ends where the line leaves.
 *
 * @param tolerancePt  how far a left-out point may lie from the drawn line, vertically
 * @returns            empty when nothing lies inside
 */
export function lineRuns(line: DrawnLine, frame: Frame, tolerancePt: number): { x: number; y: number }[][] {
  const xs = Float64Array.from(line.x, (x) => xPt(frame, x))
  const ys = Float64Array.from(line.y, (y) => yPt(frame, y))
  const kept = needed(xs, ys, tolerancePt)
  const runs: { x: number; y: number }[][] = []
  const dataOf = (x: number, y: number) => ({
    x: frame.x.low + (x / frame.widthPt) * (frame.x.high - frame.x.low),
    y: frame.y.high - (y / frame.heightPt) * (frame.y.high - frame.y.low),
  })
  let open = false
  for (let k = 1; k < kept.length; k += 1) {
    const [a, b] = [kept[k - 1]!, kept[k]!]
    const part = clipped({ x1: xs[a]!, y1: ys[a]!, x2: xs[b]!, y2: ys[b]! }, frame)
    if (part && !open) runs.push([dataOf(part.x1, part.y1)])
    if (part) runs.at(-1)!.push(dataOf(part.x2, part.y2))
    open = part !== undefined && within(xs[b]!, frame.widthPt) && within(ys[b]!, frame.heightPt)
  }
  return runs
}
