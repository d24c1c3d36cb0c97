import { prepareLinearFit } from '../maths/linear-fit.ts'
import type { Blocks } from './blocks.ts'
import type { SampleRange } from './event.ts'

/** Mains hum on a channel: upright kV at a fractional sample of the record. */
export interface Hum {
  hz: number
  peakKv: number
  at: (sample: number) => number
}

/** Mains frequencies in use, and how far a supply strays from them. */
const MAINS_HZ = [50, 60] as const
const STRAY_HZ = 0.2
/** Rest is averaged over this length: a small part of a cycle. */
const POINT_S = 1e-3
/** Offset and slope are taken out of pieces of this length, so that drift does not stand in for hum. */
const PIECE_S = 0.12
/** Fewest points of rest from which hum is told. */
const LEAST_POINTS = 40
/** Hum counts when it explains this share of what moves at rest, and is at least this high. */
const LEAST_SHARE = 0.5
const LEAST_PEAK_KV = 0.01

/** Mean of one stretch of rest about an instant. */
interface Point {
  atS: number
  kv: number
}
interface Piece {
  from: number
  to: number
  centred: Float64Array
  squares: number
}
interface Rest {
  points: readonly Point[]
  kv: Float64Array
  pieces: readonly Piece[]
}
interface Fit {
  hz: number
  cos: number
  sin: number
  share: number
}

/**
 * Finds mains hum in the rest between events: one sine over the whole record, since events that come nearly in step
 * with the mains show only part of its cycle for a long time.
 *
 * @param rests  stretches of samples at which the channel rests
 * @returns      undefined where no hum shows
 */
export function findHum(blocks: Blocks, rests: readonly SampleRange[]): Hum | undefined {
  const points = pointsOf(blocks, rests)
  if (points.length < LEAST_POINTS) return undefined
  const pieces = piecesOf(points)
  const kv = levelled(
    Float64Array.from(points, (p) => p.kv),
    pieces,
  )
  // A hum that counts leaves at least this much power in the rest.
  if (power(kv) / kv.length < (LEAST_SHARE * LEAST_PEAK_KV ** 2) / 2) return undefined
  const spanS = points.at(-1)!.atS - points[0]!.atS
  const fits = MAINS_HZ.flatMap((hz) => near(hz, spanS)).map((hz) => fitAt({ points, kv, pieces }, hz))
  const best = fits.reduce((a, b) => (b.share > a.share ? b : a))
  const peakKv = Math.hypot(best.cos, best.sin)
  if (best.share < LEAST_SHARE || peakKv < LEAST_PEAK_KV) return undefined
  const radPerSample = (2 * Math.PI * best.hz * blocks.blockS) / blocks.size
  return {
    hz: best.hz,
    peakKv,
    at: (i) => best.cos * Math.cos(radPerSample * i) + best.sin * Math.sin(radPerSample * i),
  }
}

/** Frequencies about a mains frequency, close enough that the phase stays right over the record. */
function near(hz: number, spanS: number): number[] {
  const steps = Math.ceil(STRAY_HZ * 4 * Math.max(spanS, 0.5))
  return Array.from({ length: 2 * steps + 1 }, (_, i) => hz + (STRAY_HZ * (i - steps)) / steps)
}

function pointsOf({ mean, size, blockS }: Blocks, rests: readonly SampleRange[]): Point[] {
  const width = Math.max(1, Math.round(POINT_S / blockS))
  const points: Point[] = []
  for (const { from, to } of rests) {
    for (let k = Math.ceil(from / size); k + width <= Math.floor(to / size); k += width) {
      let sum = 0
      for (let i = k; i < k + width; i++) sum += mean[i]!
      points.push({ atS: (k + width / 2) * blockS, kv: sum / width })
    }
  }
  return points
}

function fitAt({ points, kv, pieces }: Rest, hz: number): Fit {
  const cos = new Float64Array(points.length)
  const sin = new Float64Array(points.length)
  points.forEach((p, i) => {
    cos[i] = Math.cos(2 * Math.PI * hz * p.atS)
    sin[i] = Math.sin(2 * Math.PI * hz * p.atS)
  })
  const fit = prepareLinearFit([levelled(cos, pieces), levelled(sin, pieces)])?.(kv)
  const all = power(kv)
  if (!fit || all === 0) return { hz, cos: 0, sin: 0, share: 0 }
  return { hz, cos: fit.coefficients[0]!, sin: fit.coefficients[1]!, share: 1 - fit.squares / all }
}

const power = (values: Float64Array): number => values.reduce((a, b) => a + b * b, 0)

/** Stretches of points that lie in one piece of the record, with their times about their own mean. */
function piecesOf(points: readonly Point[]): Piece[] {
  const pieces: Piece[] = []
  for (let from = 0; from < points.length;) {
    const number = Math.floor(points[from]!.atS / PIECE_S)
    let to = from
    while (to < points.length && Math.floor(points[to]!.atS / PIECE_S) === number) to++
    const t = Float64Array.from(points.slice(from, to), (p) => p.atS)
    const mean = t.reduce((a, b) => a + b, 0) / t.length
    const centred = t.map((v) => v - mean)
    pieces.push({ from, to, centred, squares: power(centred) })
    from = to
  }
  return pieces
}

/** Values less offset and slope of their own piece of the record. */
function levelled(values: Float64Array, pieces: readonly Piece[]): Float64Array {
  const out = Float64Array.from(values)
  for (const { from, to, centred, squares } of pieces) {
    let sum = 0
    let slope = 0
    for (let i = from; i < to; i++) {
      sum += values[i]!
      slope += centred[i - from]! * values[i]!
    }
    const mean = sum / (to - from)
    const perS = squares > 0 ? slope / squares : 0
    for (let i = from; i < to; i++) out[i]! -= mean + perS * centred[i - from]!
  }
  return out
}
