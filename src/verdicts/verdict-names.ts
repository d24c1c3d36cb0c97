import { VERDICTS, type VerdictName } from './kinds/index.ts'

export type { VerdictName }
/** Verdicts on a cylinder, the words of the records (fixed). */
export const verdictNames = VERDICTS.map((v) => v.name) as [VerdictName, ...VerdictName[]]

/** Verdicts on a repair, the words of the records (fixed). */
export const repairVerdicts = [
  'repair confirmed',
  'improved, not in order',
  'no change',
  'worse',
  'not checked',
] as const
export type RepairVerdict = (typeof repairVerdicts)[number]
