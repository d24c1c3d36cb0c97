import { studentTQuantile } from '../../maths/student-t.ts'

/** A figure at one visit and its standard uncertainty, in the unit it is followed in. */
export interface Point {
  x: number
  u: number
}

/** How far healthy figures of one vehicle scatter from visit to visit, measuring apart, and how well that is known. */
export interface Scatter {
  /** Standard deviation, in the unit the figure is followed in. */
  sd: number
  /** Degrees of freedom behind it. */
  freedom: number
}

/** A change against a vehicle's own healthy figures. */
export interface Change {
  /** Mean of the healthy figures. */
  reference: number
  visits: number
  change: number
  /** The reference change value: a change beyond it is more than scatter and measuring make by chance. */
  limit: number
  changed: boolean
}

/**
 * Judges a figure against the same vehicle's healthy ones by the reference change value: the factor of the level times the
 * standard uncertainty of the difference, in which scatter from visit to visit and measuring add in squares. With one
 * earlier visit and both known for certain it is z * sqrt(2) * sqrt(u^2 + s^2); with n visits their mean is what is held
 * against. The scatter is estimated, so the factor is Student's, its degrees of freedom those of Welch and Satterthwaite.
 *
 * @param level  chance of a false alarm, both sides
 * @source Harris and Yasaka 1983, Clinical Chemistry 29, 25-30; Fraser 2001, Biological Variation (from memory); JCGM 100:2008, G.4.1
 */
export function judgeChange(
  now: Point,
  earlier: readonly Point[],
  { scatter, level }: { scatter: Scatter; level: number },
): Change {
  const n = earlier.length
  const reference = earlier.reduce((sum, { x }) => sum + x, 0) / n
  const ofScatter = scatter.sd ** 2 * (1 + 1 / n)
  const ofMeasuring = now.u ** 2 + earlier.reduce((sum, { u }) => sum + u ** 2, 0) / n ** 2
  const variance = ofScatter + ofMeasuring
  const freedom = ofScatter > 0 ? (scatter.freedom * variance ** 2) / ofScatter ** 2 : Infinity
  const factor = studentTQuantile(1 - level / 2, Math.min(freedom, MOST_FREEDOM))
  const limit = factor * Math.sqrt(variance)
  const change = now.x - reference
  return { reference, visits: n, change, limit, changed: Math.abs(change) > limit }
}

/** Beyond this the factor is that of the normal distribution to four digits. */
const MOST_FREEDOM = 1e5

/**
 * Scatter of one vehicle: that of its own healthy visits, shrunk towards what is known beforehand with the weight of
 * `prior.freedom` visits. Measuring is taken out of the squares, since it is added again for the figures compared. The
 * cylinders of a visit move together (fuel, temperature, recorder), so that a visit counts once and not once a cylinder.
 *
 * @param cylinders  healthy figures of each cylinder, visit by visit
 */
export function scatterOf(cylinders: readonly (readonly Point[])[], prior: Scatter): Scatter {
  const own = squareOf(cylinders)
  if (own === undefined) return prior
  const { square, freedom } = own
  const together = (prior.freedom * prior.sd ** 2 + freedom * square) / (prior.freedom + freedom)
  return { sd: Math.sqrt(Math.max(together, LEAST_SHARE * prior.sd ** 2)), freedom: prior.freedom + freedom }
}

/** Mean square of the scatter within one vehicle, measuring taken out, and the degrees of freedom behind it. */
function squareOf(cylinders: readonly (readonly Point[])[]): { square: number; freedom: number } | undefined {
  const own = cylinders.filter((points) => points.length > 1)
  if (own.length === 0) return undefined
  const squares = own.map((points) => {
    const mean = points.reduce((sum, { x }) => sum + x, 0) / points.length
    const between = points.reduce((sum, { x }) => sum + (x - mean) ** 2, 0) / (points.length - 1)
    return between - points.reduce((sum, { u }) => sum + u ** 2, 0) / points.length
  })
  return {
    square: squares.reduce((sum, square) => sum + square, 0) / squares.length,
    freedom: Math.max(...own.map((points) => points.length - 1)),
  }
}

/** A few visits that happen to agree do not show a vehicle without scatter. This project's judgement. */
const LEAST_SHARE = 0.25

/** Scatter within the vehicles of a shop, pooled and shrunk towards what is stated; it counts for as many visits as that, since vehicles differ. */
export function shopScatter(vehicles: readonly (readonly (readonly Point[])[])[], stated: Scatter): Scatter {
  const own = vehicles.flatMap((cylinders) => squareOf(cylinders) ?? [])
  const freedom = own.reduce((sum, vehicle) => sum + vehicle.freedom, 0)
  const together =
    own.reduce((sum, vehicle) => sum + vehicle.freedom * vehicle.square, stated.freedom * stated.sd ** 2) /
    (stated.freedom + freedom)
  return { sd: Math.sqrt(Math.max(together, LEAST_SHARE * stated.sd ** 2)), freedom: stated.freedom }
}
