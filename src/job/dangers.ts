/** Dangers of the work, as the report's page of cautions names them, in order of harm. Facts and their sources stand with the texts. */
export const DANGERS = [
  'spray',
  'vapour',
  'high-voltage',
  'exhaust',
  'compressed-air',
  'moving',
  'hot',
] as const
export type Danger = (typeof DANGERS)[number]
