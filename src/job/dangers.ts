import type { WordKey } from '../texts/messages.ts'

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

/** The caution against each danger: its heading, and in full. */
export const DANGER_WORDS: Readonly<Record<Danger, { title: WordKey; says: WordKey }>> = {
  spray: { title: 'report.cautions.spray-title', says: 'report.cautions.spray' },
  vapour: { title: 'report.cautions.vapour-title', says: 'report.cautions.vapour' },
  'high-voltage': { title: 'report.cautions.high-voltage-title', says: 'report.cautions.high-voltage' },
  exhaust: { title: 'report.cautions.exhaust-title', says: 'report.cautions.exhaust' },
  moving: { title: 'report.cautions.moving-title', says: 'report.cautions.moving' },
  'compressed-air': { title: 'report.cautions.compressed-air-title', says: 'report.cautions.compressed-air' },
  hot: { title: 'report.cautions.hot-title', says: 'report.cautions.hot' },
}
