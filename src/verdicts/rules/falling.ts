import { defineRule } from '../define-rule.ts'
import type { Circumstances } from '../evidence.ts'

/**
 * The line falls after its middle: the 95 % interval lies wholly below minus the limit. Rich mixture and low
 * compression look alike here; only a compression reading tells them apart, so without one both are named.
 */
const fallingWith = (
  id: string,
  verdict: 'falling' | 'rich' | 'low compression',
  compression: Circumstances['compression'],
) =>
  defineRule({
    id,
    verdict,
    basis: 'limit',
    needs: ['lateRisePct'],
    whenAbsent: 'not judged',
    limits: ['lateRisePct', ...(compression ? ['compressionSharePct'] : [])],
    sources: ['shop-practice', 'iso-17025-7.8.6'],
    says: `verdict.${id}`,
    decide: ({ lateRisePct }, limits, about) =>
      lateRisePct.high < -limits.lateRisePct! && about.compression === compression
        ? { lateRisePct, limitPct: limits.lateRisePct! }
        : undefined,
  })

export const lowCompression = fallingWith('low-compression', 'low compression', 'low')
export const rich = fallingWith('rich', 'rich', 'in order')
export const falling = fallingWith('falling', 'falling', undefined)
