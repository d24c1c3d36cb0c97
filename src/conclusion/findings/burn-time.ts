import { standingApart } from './apart.ts'
import type { FindingReader } from './reader.ts'

/** Burn time apart from the fellows, or beyond what is usual at an idle. */
export const burnTime: FindingReader = {
  kind: 'burn-time',
  side: 'captures',
  makes: 'fault',
  newAfter: 'opposes',
  directions: ['high', 'low'],
  read: (seen) =>
    standingApart(seen, {
      kind: 'burn-time',
      apart: 'burn_ms',
      figure: 'burnMs',
      usual: { low: 'burnShortMs', high: 'burnUsualHighMs' },
    }),
}
