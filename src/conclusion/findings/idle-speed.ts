import { limit } from '../../limits/limits.ts'
import { onEngine, type JobFinding } from '../finding.ts'
import { findingStates, type FindingState } from '../words.ts'
import type { FindingReader } from './reader.ts'

/** A regular swing of the idle: hunting. */
export const idleSpeed: FindingReader = {
  kind: 'idle-speed',
  side: 'captures',
  makes: 'suspected',
  newAfter: 'opposes',
  directions: ['swings'],
  role: 'sign',
  byCylinder: true,
  shift: undefined,
  read: (seen) =>
    findingStates.flatMap((state) => {
      const found = seen.swing[state]
      if (!found) return []
      if (!found.swing.ok) return found.swing.why === 'not-visible' ? [steady(state, found.capture)] : []
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
  short: () => 'headline.found.idle-swings',
  plain: () => 'page.found.idle-swings',
  figure: () => undefined,
  again: 'page.again.idle-speed',
}

/** An idle in which no swing stands out. */
const steady = (state: FindingState, capture: string): JobFinding => ({
  kind: 'idle-speed',
  state,
  order: 'in order',
  where: onEngine,
  direction: 'none',
  condition: 'idle',
  reading: 'swing',
  size: undefined,
  sure: 'measured',
  why: undefined,
  unsure: [],
  tests: [],
  captures: [capture],
})
