/**
 * Whether the runs that must be long run whole: `npm run test:long`. `npm test` runs a part of each that is the same every
 * time, and CI runs that.
 */
export const LONG_RUN = process.env['BURNLINE_LONG_RUN'] === 'yes'

/** In a short run one of the items for each subject, taken in turn, so that all of them are met; in a long one all. */
export const inTurn = <T>(items: readonly T[], subject: number): readonly T[] =>
  LONG_RUN ? items : [items[subject % items.length]!]
