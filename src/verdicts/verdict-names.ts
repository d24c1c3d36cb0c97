/** Verdicts on a cylinder, the words of the records (fixed). */
export const verdictNames = [
  'level',
  'lean',
  'falling',
  'rich',
  'low compression',
  'borderline',
  'external resistance',
  'open secondary',
  'misfiring',
  'not judged',
] as const
export type VerdictName = (typeof verdictNames)[number]

/** Verdicts on a repair, the words of the records (fixed). */
export const repairVerdicts = [
  'repair confirmed',
  'improved, not in order',
  'no change',
  'worse',
  'not checked',
] as const
export type RepairVerdict = (typeof repairVerdicts)[number]
