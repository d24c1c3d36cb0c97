import { limit } from '../../limits/limits.ts'
import { onEngine } from '../finding.ts'
import { findingStates } from '../words.ts'
import type { FindingReader } from './reader.ts'

/** A regular swing of the idle: hunting. */
export const idleSpeed: FindingReader = {
  kind: 'idle-speed',
  side: 'captures',
  makes: 'suspected',
  repair: { back: 'reading', newAfter: 'opposes' },
  directions: ['swings'],
  read: (seen) =>
    findingStates.flatMap((state) => {
      const found = seen.swing[state]
      if (!found?.swing.ok) return []
      const { value, u, unit } = found.swing
      const most = limit(seen.limits, 'idleSwingRpm')
      const swings = value - 2 * u > most
      return [
        {
          kind: 'idle-speed' as const,
          state,
          order: swings ? ('out of order' as const) : ('in order' as const),
          where: onEngine,
          direction: swings ? ('swings' as const) : ('none' as const),
          condition: 'idle',
          reading: 'swing',
          size: {
            value,
            low: value - 2 * u,
            high: value + 2 * u,
            unit,
            limitLow: undefined,
            limitHigh: most,
          },
          sure: 'measured' as const,
          why: undefined,
          unsure: [],
          tests: [],
          captures: [found.capture],
        },
      ]
    }),
}
