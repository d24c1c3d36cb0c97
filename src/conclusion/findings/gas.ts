import { limit } from '../../limits/limits.ts'
import type { JobFinding } from '../finding.ts'
import type { Seen } from '../seen.ts'
import { certaintyOf, logFinding, rowsOf, sizeOf, type LogRow } from './log-rows.ts'
import type { FindingReader } from './reader.ts'
import { byDirection } from './saying.ts'

const DIRECTIONS = { lean: 'lean', rich: 'rich', 'in order': 'none' } as const

/** The exhaust gas: its lambda, and each gas that has limits of its own. */
export const gas: FindingReader = {
  kind: 'gas',
  side: 'log',
  makes: 'fault',
  newAfter: 'opposes',
  directions: ['lean', 'rich', 'high', 'low'],
  role: 'sign',
  byCylinder: false,
  shift: undefined,
  read: (seen) => rowsOf(seen, 'gas').flatMap((row) => [...lambda(seen, row), ...gases(row)]),
  short: byDirection(
    { lean: 'headline.found.gas-lean', rich: 'headline.found.gas-rich' },
    'headline.found.gas-out',
  ),
  plain: byDirection({ lean: 'page.found.gas-lean', rich: 'page.found.gas-rich' }, 'page.found.gas-out'),
  figure: () => undefined,
  again: 'page.again.gas',
}

function lambda({ limits }: Seen, row: LogRow): JobFinding[] {
  const size = sizeOf(row.test.computed['lambda'], {
    low: limit(limits, 'lambdaLow'),
    high: limit(limits, 'lambdaHigh'),
  })
  const side = row.test.facts?.find((f) => f.kind === 'lambda')?.side
  if (!size) return []
  if (side === undefined)
    return [
      {
        ...logFinding(row, { kind: 'gas', direction: 'none', reading: 'lambda', size, sure: 'not judged' }),
        order: 'not known',
      },
    ]
  return [
    logFinding(row, {
      kind: 'gas',
      direction: DIRECTIONS[side],
      reading: 'lambda',
      size,
      sure: certaintyOf(size),
    }),
  ]
}

/** Gases read against limits given with them. */
const gases = (row: LogRow): JobFinding[] =>
  row.test.readings.flatMap(({ reading, value, unit, expectedLow, expectedHigh, finding }) =>
    finding === undefined || value === undefined || unit === undefined
      ? []
      : [
          logFinding(row, {
            kind: 'gas',
            reading,
            direction: finding === 'in limits' ? 'none' : value < (expectedLow ?? -Infinity) ? 'low' : 'high',
            size: { value, low: value, high: value, unit, limitLow: expectedLow, limitHigh: expectedHigh },
          }),
        ],
  )
