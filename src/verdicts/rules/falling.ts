import { defineRule } from '../define-rule.ts'
import type { Circumstances } from '../evidence.ts'

const SAYS = {
  falling: 'verdict.falling',
  rich: 'verdict.rich',
  'low-compression': 'verdict.low-compression',
  'falling-throughout': 'verdict.falling-throughout',
  'rich-throughout': 'verdict.rich-throughout',
  'low-compression-throughout': 'verdict.low-compression-throughout',
} as const

/**
 * The line falls after its middle: the 95 % interval lies wholly below minus the limit; at idle, and off idle where no
 * fellow is level to compare with; not cold, when all lines fall in good order. Rich mixture and low compression look alike here; only a compression reading tells
 * them apart, so without one both are named. A line that falls before its middle no less may have resistance outside
 * its cylinder: that is said beside the verdict, with the test that tells.
 */
const fallingWith = (
  id: keyof typeof SAYS,
  {
    verdict,
    compression,
    throughout,
  }: {
    verdict: 'falling' | 'rich' | 'low compression'
    compression: Circumstances['compression']
    throughout: boolean
  },
) =>
  defineRule({
    id,
    verdict,
    basis: 'limit',
    at: ['idle', 'off idle'],
    needs: throughout ? ['lateRisePct', 'fallsFirstPct'] : ['lateRisePct'],
    whenAbsent: throughout ? 'pass over' : 'not judged',
    limits: ['lateRisePct', ...(compression ? (['compressionSharePct'] as const) : [])],
    sources: ['shop-practice', 'iso-17025-7.8.6'],
    says: SAYS[id],
    decide: (figures, limits, about) =>
      figures.lateRisePct.high < -limits.lateRisePct &&
      about.compression === compression &&
      (!throughout || figures.fallsFirstPct!.high >= 0)
        ? { lateRisePct: figures.lateRisePct, limitPct: limits.lateRisePct }
        : undefined,
  })

export const lowCompression = fallingWith('low-compression', {
  verdict: 'low compression',
  compression: 'low',
  throughout: false,
})
export const rich = fallingWith('rich', { verdict: 'rich', compression: 'in order', throughout: false })
export const falling = fallingWith('falling', {
  verdict: 'falling',
  compression: undefined,
  throughout: false,
})
export const lowCompressionThroughout = fallingWith('low-compression-throughout', {
  verdict: 'low compression',
  compression: 'low',
  throughout: true,
})
export const richThroughout = fallingWith('rich-throughout', {
  verdict: 'rich',
  compression: 'in order',
  throughout: true,
})
export const fallingThroughout = fallingWith('falling-throughout', {
  verdict: 'falling',
  compression: undefined,
  throughout: true,
})
