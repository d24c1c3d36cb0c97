import { standingApart } from './apart.ts'
import type { FindingReader } from './reader.ts'
import { byDirection } from './saying.ts'

/** Burn time apart from the fellows, or beyond what is usual at an idle. */
export const burnTime: FindingReader = {
  kind: 'burn-time',
  side: 'captures',
  makes: 'fault',
  newAfter: 'opposes',
  directions: ['high', 'low'],
  role: 'beside',
  byCylinder: true,
  shift: 'burnMs',
  read: (seen) =>
    standingApart(seen, {
      kind: 'burn-time',
      apart: 'burn_ms',
      figure: 'burnMs',
      usual: { low: 'burnShortMs', high: 'burnUsualHighMs' },
    }),
  short: byDirection({ low: 'headline.found.burn-short' }, 'headline.found.burn-long'),
  plain: byDirection({ low: 'page.found.burn-short' }, 'page.found.burn-long'),
  figure: () => undefined,
  again: 'page.again.mixture',
}
