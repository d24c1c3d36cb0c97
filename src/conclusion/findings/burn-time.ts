import { beyondUsual } from './apart.ts'
import type { FindingReader } from './reader.ts'

/** Burn time beyond what is usual at an idle. */
export const burnTime: FindingReader = {
  kind: 'burn-time',
  side: 'captures',
  makes: 'fault',
  repair: { back: 'cylinder figure', newAfter: 'opposes' },
  directions: ['high', 'low'],
  read: (seen) =>
    beyondUsual(seen, {
      kind: 'burn-time',
      figure: 'burnMs',
      low: 'burnUsualLowMs',
      high: 'burnUsualHighMs',
      fit: (c) => c.verdict !== 'open secondary' && c.verdict !== 'misfiring' && c.verdict !== 'not judged',
    }),
}
