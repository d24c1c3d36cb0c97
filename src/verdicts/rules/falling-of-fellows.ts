import { defineRule } from '../define-rule.ts'
import type { Circumstances } from '../evidence.ts'
import { BESIDE_FELLOWS } from '../running.ts'

const SAYS = {
  'falling-of-fellows': 'verdict.falling-of-fellows',
  'rich-of-fellows': 'verdict.rich-of-fellows',
  'low-compression-of-fellows': 'verdict.low-compression-of-fellows',
} as const

/** Falling off idle: the line falls by more than the limit below the level ones among its fellows, held over the engine. */
const fallingOfFellowsWith = (
  id: keyof typeof SAYS,
  verdict: 'falling' | 'rich' | 'low compression',
  compression: Circumstances['compression'],
) =>
  defineRule({
    id,
    verdict,
    basis: 'fellows',
    at: BESIDE_FELLOWS,
    needs: ['againstLevelPct'],
    whenAbsent: 'pass over',
    limits: ['lateRisePct', ...(compression ? (['compressionSharePct'] as const) : [])],
    sources: ['shop-practice', 'project-judgement'],
    says: SAYS[id],
    decide: ({ againstLevelPct }, limits, about) =>
      againstLevelPct.high < -limits.lateRisePct && about.compression === compression
        ? { againstLevelPct, limitPct: limits.lateRisePct }
        : undefined,
  })

export const lowCompressionOfFellows = fallingOfFellowsWith(
  'low-compression-of-fellows',
  'low compression',
  'low',
)
export const richOfFellows = fallingOfFellowsWith('rich-of-fellows', 'rich', 'in order')
export const fallingOfFellows = fallingOfFellowsWith('falling-of-fellows', 'falling', undefined)
