import { verdictOf, type VerdictName } from '../../verdicts/kinds/index.ts'

/** Sign beside a verdict's word, the same shape as in the charts: hollow is in order, filled is not. */
export const verdictSign = (verdict: VerdictName): string => verdictOf(verdict).sign
