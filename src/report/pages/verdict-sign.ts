import type { CylinderRecord } from '../../records/result.ts'

/** Signs beside the verdicts' words, the same shapes as in the charts: hollow is in order, filled is not. */
const SIGNS: Readonly<Record<CylinderRecord['verdict'], string>> = {
  level: '\u25cb',
  lean: '\u25b2',
  falling: '\u25bc',
  rich: '\u25bc',
  'low compression': '\u25bc',
  borderline: '\u25ca',
  'external resistance': '\u25a0',
  'open secondary': '\u25a0',
  misfiring: '\u00d7',
  'not judged': '\u2013',
}

export const verdictSign = (verdict: CylinderRecord['verdict']): string => SIGNS[verdict]
