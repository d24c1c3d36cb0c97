import type { Says } from '../../test-log/findings.ts'
import type { Interval } from '../../units/measured.ts'

/** Figures that are read beside the mixture. */
export const APART_FIGURES = ['firing_kv', 'burn_ms', 'coil_cycles'] as const
export type ApartFigure = (typeof APART_FIGURES)[number]

/** One figure of a cylinder that stands apart, beside whatever its mixture is. */
export interface ApartFinding {
  figure: ApartFigure
  direction: 'high' | 'low'
  /** From the other cylinders of the capture, or from what is usual. */
  against: 'fellows' | 'usual'
  /** Distance from the fellows' middle or from the end of what is usual: % of it, oscillations in cycles. */
  size: Interval
  /** Keys of templates/limits.yaml. */
  limits: readonly string[]
  says: Says
}

/** Words of the records (fixed, like the names of verdicts). */
export const APART_WORDS: Readonly<Record<ApartFigure, Readonly<Record<ApartFinding['direction'], string>>>> =
  {
    firing_kv: { high: 'firing voltage high', low: 'firing voltage low' },
    burn_ms: { high: 'burn time long', low: 'burn time short' },
    coil_cycles: { high: 'oscillations many', low: 'oscillations few' },
  }
