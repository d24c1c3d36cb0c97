import { standingApart } from './apart.ts'
import type { FindingReader } from './reader.ts'
import { byDirection } from './saying.ts'

/** Firing voltage apart from the fellows, or beyond what is usual at an idle, on every cylinder that has it so. */
export const firingVoltage: FindingReader = {
  kind: 'firing-voltage',
  side: 'captures',
  makes: 'fault',
  newAfter: 'opposes',
  directions: ['high', 'low'],
  role: 'beside',
  byCylinder: true,
  shift: 'firingKv',
  read: (seen) =>
    standingApart(seen, {
      kind: 'firing-voltage',
      apart: 'firing_kv',
      figure: 'firingKv',
      usual: { low: 'firingUsualLowKv', high: 'firingUsualHighKv' },
    }),
  short: byDirection({ high: 'headline.found.firing-high' }, 'headline.found.firing-low'),
  plain: byDirection({ high: 'page.found.firing-high' }, 'page.found.firing-low'),
  figure: (f) =>
    f.direction === 'high' && f.size?.unit === 'kV' && f.size.limitHigh !== undefined
      ? 'page.sure.firing'
      : undefined,
  again: 'page.again.mixture',
}
