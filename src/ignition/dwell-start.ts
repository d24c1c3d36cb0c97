import { middleOf, type Blocks } from './blocks.ts'
import { upright, type Signal } from './signal.ts'

/** Dwell is looked for this far back: long enough for a slow cranking coil. */
const LONGEST_DWELL_S = 15e-3
/** Dwell is at least this long; nearer falls belong to the current limit and the switch-off. */
const SHORTEST_DWELL_S = 0.3e-3
/** The step of dwell start counts from this share of the spark line's step on. */
const LEAST_STEP_SHARE = 0.12
/** The first fall that reaches this share of the steepest one is the start: the ripple behind it is weaker. */
const FIRST_OF_STEEPEST = 0.6

/**
 * Dwell start: the sharp step away from rest, against the firing line, that precedes a breakdown.
 *
 * @param at  block of the breakdown; `from` first block that may be searched (after the event before);
 *            stepKv: the spark line's step at this breakdown
 * @returns   fractional sample at the foot of the first swing; undefined where none shows
 */
export function dwellStart(
  blocks: Blocks,
  signal: Signal,
  { at, from, stepKv, noiseKv }: { at: number; from: number; stepKv: number; noiseKv: number },
): number | undefined {
  const { min, max, mean, blockS, size } = blocks
  const first = Math.max(1, from, at - Math.round(LONGEST_DWELL_S / blockS))
  const last = at - Math.round(SHORTEST_DWELL_S / blockS)
  const fall = (k: number): number => max[k - 1]! - min[k]!
  let steepest = 0
  for (let k = first; k < last; k++) steepest = Math.max(steepest, fall(k))
  if (steepest < Math.max(LEAST_STEP_SHARE * stepKv, 8 * noiseKv)) return undefined
  for (let k = first; k < last; k++) {
    if (fall(k) < FIRST_OF_STEEPEST * steepest) continue
    const span = Math.round(0.3e-3 / blockS)
    const before = middleOf(mean, k - span, k - 1)
    const after = middleOf(mean, k + 2, Math.min(k + span, at))
    if (before === undefined || after === undefined || before - after < 0.3 * steepest) return undefined
    return stepFoot(upright(signal, (k - 1) * size, (k + 3) * size), before) + (k - 1) * size
  }
  return undefined
}

/**
 * Foot of the first swing from `rest` down. It starts like 1 - cos: half of its depth comes a quarter cycle after the
 * foot, a fifth comes acos(0.6), and the line through the two leads back to the foot. Fractional sample.
 */
function stepFoot(kv: Float64Array, rest: number): number {
  const depth = rest - kv.reduce((a, b) => Math.min(a, b), Infinity)
  const half = passes(kv, rest - 0.5 * depth)
  const fifth = passes(kv, rest - 0.2 * depth)
  const lead = Math.acos(0.6) / (Math.PI / 2 - Math.acos(0.6))
  return Math.max(0, fifth - lead * (half - fifth))
}

function passes(kv: Float64Array, level: number): number {
  const below = kv.findIndex((v) => v < level)
  if (below <= 0) return 0
  const high = kv[below - 1]!
  return below - 1 + (high - level) / (high - kv[below]!)
}
