type Curve = [number, number, number, number, number, number]

const FULL_TURN = 2 * Math.PI

/**
 * A circular arc as Bezier curves of at most a quarter turn each (error below 0.03 % of the radius).
 * Angles in radians, clockwise in canvas space unless `back`; a sweep of a full turn or more is a circle.
 * @source WHATWG HTML, 4.12.5.1.6 (arc), and the usual 4/3 tan(t/4) handle, from memory
 */
export function arcCurves(arc: {
  x: number
  y: number
  radius: number
  from: number
  to: number
  back: boolean
}): { start: [number, number]; curves: readonly Curve[] } {
  const { x, y, radius, from } = arc
  const sweep = sweepOf(arc)
  const count = Math.max(1, Math.ceil(Math.abs(sweep) / (Math.PI / 2) - 1e-9))
  const step = sweep / count
  const handle = (4 / 3) * Math.tan(step / 4) * radius
  const at = (angle: number): [number, number] => [x + radius * Math.cos(angle), y + radius * Math.sin(angle)]
  const curves = Array.from({ length: count }, (_, i): Curve => {
    const [a, b] = [from + i * step, from + (i + 1) * step]
    const [[x0, y0], [x1, y1]] = [at(a), at(b)]
    return [
      x0 - handle * Math.sin(a),
      y0 + handle * Math.cos(a),
      x1 + handle * Math.sin(b),
      y1 - handle * Math.cos(b),
      x1,
      y1,
    ]
  })
  return { start: at(from), curves: sweep === 0 ? [] : curves }
}

function sweepOf({ from, to, back }: { from: number; to: number; back: boolean }): number {
  const turn = back ? from - to : to - from
  if (turn >= FULL_TURN) return back ? -FULL_TURN : FULL_TURN
  const sweep = ((turn % FULL_TURN) + FULL_TURN) % FULL_TURN
  return back ? -sweep : sweep
}
