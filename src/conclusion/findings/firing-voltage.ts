import { standingApart } from './apart.ts'
import type { FindingReader } from './reader.ts'

/** Firing voltage apart from the fellows, or beyond what is usual at an idle, on every cylinder that has it so. */
export const firingVoltage: FindingReader = {
  kind: 'firing-voltage',
  side: 'captures',
  makes: 'fault',
  newAfter: 'opposes',
  directions: ['high', 'low'],
  read: (seen) =>
    standingApart(seen, {
      kind: 'firing-voltage',
      apart: 'firing_kv',
      figure: 'firingKv',
      usual: { low: 'firingUsualLowKv', high: 'firingUsualHighKv' },
    }),
}
