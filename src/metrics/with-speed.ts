import { quantile } from '../maths/quantile.ts'
import { studentTCdf, studentTQuantile } from '../maths/student-t.ts'

/** One value and the speed it was measured at. */
export interface AtSpeed {
  rpm: number
  value: number
}

/** A figure at both ends of the swing of the speed, by its own line through the events. */
export interface WithSpeed {
  lowRpm: number
  highRpm: number
  atLow: number
  atHigh: number
  /** Half the 95 % interval of the line at either end. */
  lowReach: number
  highReach: number
}

const LEAST_EVENTS = 10
/** The slope has to be clear of chance at this level: a report asks it of every cylinder. */
const SLOPE_LEVEL = 0.001
/** Ends of the swing: this share of the events lies beyond either. */
const TAIL = 0.1

/**
 * A figure that depends on the speed: a straight line through the events by least squares, at both ends of the swing.
 *
 * @returns undefined where the slope may be chance, or with fewer than ten events
 * @source  Student's t of a regression slope and of its line: Draper and Smith 1998, Applied Regression Analysis, 1.4 and 3.1
 */
export function withSpeed(events: readonly AtSpeed[]): WithSpeed | undefined {
  const n = events.length
  if (n < LEAST_EVENTS) return undefined
  const mean = (pick: (e: AtSpeed) => number): number => events.reduce((sum, e) => sum + pick(e), 0) / n
  const [x, y] = [mean((e) => e.rpm), mean((e) => e.value)]
  const xx = events.reduce((sum, e) => sum + (e.rpm - x) ** 2, 0)
  if (!(xx > 0)) return undefined
  const slope = events.reduce((sum, e) => sum + (e.rpm - x) * (e.value - y), 0) / xx
  // Values all alike, as coarse steps leave them, have neither slope nor scatter.
  if (slope === 0) return undefined
  const left = events.reduce((sum, e) => sum + (e.value - y - slope * (e.rpm - x)) ** 2, 0)
  const t = slope / Math.sqrt(left / (n - 2) / xx)
  if (2 * studentTCdf(-Math.abs(t), n - 2) > SLOPE_LEVEL) return undefined
  const speeds = events.map((e) => e.rpm)
  const [lowRpm, highRpm] = [quantile(speeds, TAIL)!, quantile(speeds, 1 - TAIL)!]
  const scatter = Math.sqrt(left / (n - 2))
  const reach = (rpm: number): number =>
    studentTQuantile(0.975, n - 2) * scatter * Math.sqrt(1 / n + (rpm - x) ** 2 / xx)
  return {
    lowRpm,
    highRpm,
    atLow: y + slope * (lowRpm - x),
    atHigh: y + slope * (highRpm - x),
    lowReach: reach(lowRpm),
    highReach: reach(highRpm),
  }
}
