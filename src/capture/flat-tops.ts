import type { Stretch } from './collect.ts'

/** A cut top is this many equal samples long, or comes back this often. */
const MIN_RUN = 3
const MIN_RUNS = 3
/** Levels below the extreme one that a signal passes on its way to a top of its own. */
const LEVELS_BELOW = 3
/** An uncut top rests about 1.4 times as long on its highest level as on the two below (a parabola); a cut one, at will. */
const PILE_UP = 4
/** Tops that end on the very same level, against those that end on the levels just below it. */
const SAME_LEVEL_TOPS = 3
/** A level held for more of the time than this is a level of rest, not a limit: an ignition pattern is short. */
const REST_SHARE = 0.2

/**
 * Whether the highest value of a channel is the recorder's limit: the signal is cut flat there.
 * Either it stays on that level far longer than on those below, or many tops end on it and few just below it.
 *
 * @param data  shape (n), not changed
 * @param about highest value; smallest step of the channel in the same unit; 1, or -1 to look at the lowest value instead;
 *              what the stretches of `data` span, one after another
 */
export function isFlatTop(data: Float32Array, about: FlatTopQuestion): boolean {
  const counts = countNear(data, about)
  if (counts.samples[0]! > REST_SHARE * data.length) return false
  const below = counts.samples[1]! + counts.samples[2]!
  const longHold = counts.longestRun >= MIN_RUN && counts.samples[0]! >= PILE_UP * Math.max(1, below)
  const otherTops = Math.max(...counts.tops.slice(1))
  const sameTops = counts.tops[0]! >= MIN_RUNS && counts.tops[0]! > SAME_LEVEL_TOPS * otherTops
  return longHold || sameTops
}

interface FlatTopQuestion {
  extreme: number
  step: number
  sign: 1 | -1
  stretches: readonly Stretch[]
}

interface NearCounts {
  /** Samples on the extreme level and on each level below it. */
  samples: number[]
  /** Runs of samples on a level between two lower ones. */
  tops: number[]
  /** Longest run on the extreme level. */
  longestRun: number
}

/** Counts over the samples on the extreme level and the few levels below it; stretches that stay below are skipped. */
function countNear(data: Float32Array, about: FlatTopQuestion): NearCounts {
  const { extreme, step, sign, stretches } = about
  const counts: NearCounts = {
    samples: Array(LEVELS_BELOW + 1).fill(0),
    tops: Array(LEVELS_BELOW + 1).fill(0),
    longestRun: 0,
  }
  const near = sign * extreme - (LEVELS_BELOW + 0.5) * step
  const lower = (j: number, than: number) => j < 0 || j >= data.length || sign * (than - data[j]!) > step / 2
  let i = 0
  for (const { from, to, low, high } of stretches) {
    if ((sign > 0 ? high : -low) < near) continue
    for (i = Math.max(i, from); i < to; i++) {
      const value = data[i]!
      if (sign * value < near) continue
      const level = Math.round((sign * (extreme - value)) / step)
      let end = i + 1
      while (end < data.length && Math.abs(data[end]! - value) < step / 2) end++
      counts.samples[level]! += end - i
      if (lower(i - 1, value) && lower(end, value)) counts.tops[level]!++
      if (level === 0) counts.longestRun = Math.max(counts.longestRun, end - i)
      i = end - 1
    }
  }
  return counts
}
