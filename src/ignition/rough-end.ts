import { middleOf, type Blocks } from './blocks.ts'

/** Where a spark line is left, to a block or two. */
export interface RoughEnd {
  /** Undefined where the record ends first. */
  end: number | undefined
  /** Steepest fall between neighbouring blocks about the end, kV. */
  steepestFall: number
  restrikes: readonly number[]
}

/** The line is over when it has lost this share of the height it had `LOOK_BACK_S` before: no line falls so fast. */
const LEFT_SHARE = 0.4
const LOOK_BACK_S = 0.2e-3
/** The firing line and its overshoot are past after this. */
const SETTLED_S = 0.05e-3
/** A new breakdown within the burn drops the line by this share of its level. */
const RESTRIKE_SHARE = 0.25
/** ... and by this many times what hash and noise drop it between any two blocks. */
const OVER_HASH = 4
/** A line that is left may be taken up again by a new breakdown within this time. */
const TAKEN_UP_S = 0.3e-3

/**
 * Walks along the spark line until it is left for good.
 *
 * @param blocks  of the upright signal
 * @param peak     block of the firing line's peak; quietKv: resting level, recorded kV
 * @param leastKv  a step smaller than this is noise
 */
export function roughEnd(
  blocks: Blocks,
  { peak, quietKv, leastKv }: { peak: number; quietKv: number; leastKv: number },
): RoughEnd {
  const { mean, blockS } = blocks
  const back = Math.max(1, Math.round(LOOK_BACK_S / blockS))
  const settled = peak + Math.max(1, Math.round(SETTLED_S / blockS))
  const restrikes: number[] = []
  const height = (k: number): number => mean[k]! - quietKv
  for (let k = settled; k + 1 < mean.length; k++) {
    const was = height(Math.max(settled, k - back))
    if (height(k) > LEFT_SHARE * was || height(k + 1) > LEFT_SHARE * was) {
      if (isRestrike(blocks, { at: k, settled, quietKv, leastKv })) restrikes.push(k)
      continue
    }
    const tallest =
      mean.subarray(Math.max(settled, k - 2 * back), k).reduce((a, b) => Math.max(a, b), -Infinity) - quietKv
    const again = takenUp(blocks, { from: k, heightKv: 0.6 * tallest, quietKv })
    if (again === undefined) {
      const usual = usualDrop(blocks, settled, k)
      return {
        end: k,
        steepestFall: steepest(blocks, k),
        restrikes: restrikes.filter(
          (r) => r < k - back / 2 && blocks.max[r - 1]! - blocks.min[r]! > OVER_HASH * usual,
        ),
      }
    }
    restrikes.push(again)
    k = again + 1
  }
  return { end: undefined, steepestFall: 0, restrikes }
}

/** The line drops sharply and stays a line: the arc, drawn long, has broken down anew over a shorter way. */
function isRestrike(
  { max, min, mean }: Blocks,
  { at, settled, quietKv, leastKv }: { at: number; settled: number; quietKv: number; leastKv: number },
): boolean {
  if (at < settled + 3 || at + 4 >= mean.length) return false
  const height = mean[at + 1]! - quietKv
  const drop = max[at - 1]! - min[at]!
  return (
    drop > Math.max(leastKv, RESTRIKE_SHARE * height) &&
    mean[at + 4]! - quietKv > 0.75 * height &&
    max[at - 1]! - quietKv > (1 + RESTRIKE_SHARE) * height
  )
}

/** Median drop between neighbouring blocks of the line, kV. */
function usualDrop({ max, min }: Blocks, from: number, to: number): number {
  const drops = new Float32Array(Math.max(0, to - from - 1))
  for (let i = 0; i < drops.length; i++) drops[i] = max[from + i]! - min[from + i + 1]!
  return middleOf(drops, 0, drops.length) ?? 0
}

/** A sharp climb back to the line that then holds for at least 0.15 ms; a ring climbs ten times slower. */
function takenUp(
  { max, min, mean, blockS }: Blocks,
  { from, heightKv, quietKv }: { from: number; heightKv: number; quietKv: number },
): number | undefined {
  const last = Math.min(mean.length - 1, from + Math.round(TAKEN_UP_S / blockS))
  const hold = Math.round(0.15e-3 / blockS)
  for (let k = from + 1; k < last; k++) {
    if (max[k]! - quietKv < heightKv || max[k]! - min[k - 1]! < 0.8 * heightKv) continue
    let holds = true
    for (let j = k + 1; j <= k + hold && holds; j++) holds = (mean[j] ?? -Infinity) - quietKv > 0.7 * heightKv
    if (holds) return k
  }
  return undefined
}

function steepest({ min, max, blockS }: Blocks, end: number): number {
  const reach = Math.round(0.1e-3 / blockS)
  let most = 0
  for (let k = Math.max(1, end - reach); k < Math.min(min.length, end + reach); k++)
    most = Math.max(most, max[k - 1]! - min[k]!)
  return most
}
