import { logFinding, rowsOf, sizeOf } from './log-rows.ts'
import type { FindingReader } from './reader.ts'
import { byDirection } from './saying.ts'

const DIRECTIONS = { low: 'low', high: 'high', 'in order': 'none' } as const

/** Manifold vacuum against the maker's limits, or against what is usual at an idle. */
export const vacuum: FindingReader = {
  kind: 'vacuum',
  side: 'log',
  makes: 'fault',
  newAfter: 'opposes',
  directions: ['low', 'high'],
  role: 'sign',
  byCylinder: false,
  shift: undefined,
  read: (seen) =>
    rowsOf(seen, 'vacuum').flatMap((row) => {
      const fact = row.test.facts?.find((f) => f.kind === 'vacuum')
      return fact
        ? [
            logFinding(row, {
              kind: 'vacuum',
              direction: DIRECTIONS[fact.state],
              reading: 'manifold',
              size: sizeOf(row.test.computed['manifoldKpa']),
              sure: fact.sure ? 'measured' : 'leaning',
            }),
          ]
        : []
    }),
  short: byDirection({ low: 'headline.found.vacuum-low' }, 'headline.found.vacuum-high'),
  plain: byDirection({ low: 'page.found.vacuum-low' }, 'page.found.vacuum-high'),
  figure: () => undefined,
  again: 'page.again.vacuum',
}
