import { makeBlocks, mirrored, type Blocks } from './blocks.ts'
import { pickBreakdowns, type Pick } from './pick-breakdowns.ts'

/** Which way a channel's firing lines point, with what was found that way. */
export interface Polarity {
  sign: 1 | -1
  /** Blocks and picks of the signal turned upright. */
  blocks: Blocks
  picks: readonly Pick[]
  /** 0.5: neither way is likelier; 1: only this one shows breakdowns. */
  sureness: number
}

/** A line that ends in a fall this steep, beside its own climb, ends in another breakdown: it was dwell, upside down. */
const STEEP_END = 0.8
/** What a pick counts that was not charged before, or that ends in a steep fall: less, not nothing. */
const UNLIKELY = 0.2

/**
 * Tells the direction of the firing line by the shape of whole events: a breakdown climbs fast, holds a line and ends in
 * the coil's slow ring, and dwell lies on the other side of rest before it. Upside down, dwell looks like a line, but it
 * starts from rest with a smaller step.
 *
 * @param wanted  the direction the job states, or auto
 */
export function findPolarity(
  data: Float32Array,
  wanted: 'auto' | 'positive' | 'negative',
  { sampleS, noiseKv, quantumKv }: { sampleS: number; noiseKv: number; quantumKv: number },
): Polarity {
  const up = makeBlocks(data, { sampleS, sign: 1 })
  const ways = ([1, -1] as const).map((sign) => {
    const blocks = sign === 1 ? up : mirrored(up)
    const picks = pickBreakdowns(blocks, { noiseKv, quantumKv })
    return { sign, blocks, picks, weight: weightOf(picks) }
  })
  const [positive, negative] = ways as [(typeof ways)[0], (typeof ways)[0]]
  const likelier = positive.weight >= negative.weight ? positive : negative
  const chosen = wanted === 'auto' ? likelier : wanted === 'positive' ? positive : negative
  const total = positive.weight + negative.weight
  return {
    sign: chosen.sign,
    blocks: chosen.blocks,
    picks: chosen.picks,
    sureness: total > 0 ? chosen.weight / total : 0.5,
  }
}

/** Sum of the climbs of all picks, those unlike a spark counting less. */
function weightOf(picks: readonly Pick[]): number {
  return picks.reduce(
    (sum, p) => sum + p.sharpKv * (p.sharpEnd < STEEP_END ? 1 : UNLIKELY) * (p.charged ? 1 : UNLIKELY),
    0,
  )
}
