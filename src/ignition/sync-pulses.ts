import { median } from '../maths/median.ts'
import { makeBlocks, middleOf, mirrored, type Blocks } from './blocks.ts'
import type { SyncMark } from './event.ts'
import { noiseSd } from './quiet-level.ts'

/** Leading edge of one pulse and how long it stood over the low threshold. */
interface Pulse {
  atS: number
  widthS: number
}

/** Cycles a second of the slowest turning worth reading, and the spell in which at most one pulse is counted. */
const SLOWEST_CYCLES_HZ = 0.8
const SPELL_S = 50e-3
/** A pulse starts above the one share of the usual height and lasts until it falls below the other. */
const START_SHARE = 0.55
const STOP_SHARE = 0.3
/** Edges closer than this are one pulse that rings or bounces: at 10 000 rpm a turn takes 6 ms. */
const BOUNCE_S = 2e-3
/** Pulses narrower than this share of the usual width are spikes. */
const LEAST_WIDTH_SHARE = 0.25
/** Where pulse and pause are about as long, which of the two edges marks the cylinder cannot be told. */
const MOST_WIDTH_SHARE = 0.35
/** A channel whose strongest swings do not stand out of the noise this much carries no pulse. */
const LEAST_NOISES = 8
const LEAST_STEPS = 3

/**
 * Pulses of a sync channel, of either polarity and any height, by a threshold with hysteresis.
 *
 * @param data     as recorded, any unit; not changed
 * @param quantum  recorder's step in that unit; 0 unknown
 * @param walls    first samples of frames: no pulse and no pause goes on behind one
 * @returns        in order of time; spikes, and all of a wave without a short side, come as `rejected`. Empty where the channel shows no pulse.
 */
export function syncPulses(
  data: Float32Array,
  {
    sampleS,
    startS,
    quantum,
    walls = [],
  }: { sampleS: number; startS: number; quantum: number; walls?: readonly number[] },
): SyncMark[] {
  const up = makeBlocks(data, { sampleS, sign: 1 })
  const least = Math.max(LEAST_NOISES * noiseSd(data), LEAST_STEPS * quantum)
  const down = mirrored(up)
  const heights = [heightsOf(up), heightsOf(down)] as const
  const usual = heights.map((h) => h.usual)
  // A record with one pulse has no usual height: there the tallest swing is all there is.
  const [high, low] = Math.max(...usual) >= least ? usual : heights.map((h) => h.tallest)
  const sign = high! >= low! ? 1 : -1
  const height = Math.max(high!, low!)
  if (height < least || height === 0) return []
  const blocks = sign === 1 ? up : down
  const rest = restOf(blocks)
  const pulses = edges(data, { blocks, sign, rest, height, sampleS, walls: new Set([0, ...walls]) })
  const width = median(pulses.map((p) => p.widthS)) ?? 0
  const wallsS = walls.map((row) => row * sampleS)
  const pauses = pulses.slice(1).flatMap((p, i) => {
    const before = pulses[i]!
    return wallsS.some((w) => w > before.atS && w <= p.atS) ? [] : [p.atS - before.atS]
  })
  const apart = median(pauses) ?? Infinity
  return pulses.map(({ atS, widthS }): SyncMark => {
    const why =
      widthS < LEAST_WIDTH_SHARE * width ? 'narrow' : width > MOST_WIDTH_SHARE * apart ? 'wide' : undefined
    return why ? { atS: startS + atS, state: 'rejected', why } : { atS: startS + atS, state: 'seen' }
  })
}

/** Blocks looked at for the rest: enough for a middle, few enough to sort. */
const MOST_BLOCKS = 4000

/** The longer of the two states: a pulse is short. */
function restOf({ mean }: Blocks): number {
  const step = Math.max(1, Math.ceil(mean.length / MOST_BLOCKS))
  const some = new Float32Array(Math.ceil(mean.length / step))
  for (let i = 0; i < some.length; i++) some[i] = mean[i * step]!
  return middleOf(some, 0, some.length) ?? 0
}

/**
 * Heights over rest: the tallest of all spells, and the usual one, which half as many spells reach as the slowest engine
 * has cycles, the tallest left out, so that a few freak spikes do not set it.
 */
function heightsOf(blocks: Blocks): { usual: number; tallest: number } {
  const rest = restOf(blocks)
  const spell = Math.max(1, Math.round(SPELL_S / blocks.blockS))
  const heights: number[] = []
  for (let from = 0; from < blocks.max.length; from += spell) {
    let most = -Infinity
    for (let k = from; k < Math.min(from + spell, blocks.max.length); k++)
      most = Math.max(most, blocks.max[k]!)
    heights.push(most - rest)
  }
  heights.sort((a, b) => b - a)
  const rank = Math.max(1, Math.floor((blocks.max.length * blocks.blockS * SLOWEST_CYCLES_HZ) / 2))
  return { usual: heights[Math.min(rank, heights.length - 1)] ?? 0, tallest: heights[0] ?? 0 }
}

function edges(
  data: Float32Array,
  {
    blocks,
    sign,
    rest,
    height,
    sampleS,
    walls,
  }: {
    blocks: Blocks
    sign: 1 | -1
    rest: number
    height: number
    sampleS: number
    walls: ReadonlySet<number>
  },
): Pulse[] {
  const start = rest + START_SHARE * height
  const stop = rest + STOP_SHARE * height
  const pulses: Pulse[] = []
  for (let k = 0; k < blocks.max.length; k++) {
    if (blocks.max[k]! < start) continue
    let i = k * blocks.size
    while (sign * data[i]! < start) i++
    // A pulse already high at the first sample of a frame shows no edge.
    const atS = walls.has(i)
      ? undefined
      : crossing(sign * data[i - 1]!, sign * data[i]!, { level: start, i }) * sampleS
    const from = i
    while (i < data.length && sign * data[i]! >= stop && !(i > from && walls.has(i))) i++
    const widthS = (i - from) * sampleS
    const last = pulses.at(-1)
    if (last && atS !== undefined && atS - (last.atS + last.widthS) < BOUNCE_S)
      last.widthS = i * sampleS - last.atS
    else if (atS !== undefined) pulses.push({ atS, widthS })
    k = Math.max(k, Math.ceil(i / blocks.size) - 1)
  }
  return pulses
}

const crossing = (before: number, here: number, { level, i }: { level: number; i: number }): number =>
  here > before && before < level ? i - 1 + (level - before) / (here - before) : i
