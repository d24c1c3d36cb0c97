import { limit } from '../../limits/limits.ts'
import { trimOf } from '../../test-log/steps/trim.ts'
import { onEngine, type JobFinding, type Size, type Where } from '../finding.ts'
import type { Seen } from '../seen.ts'
import type { Direction } from '../words.ts'
import { certaintyOf, logFinding, rowsOf, sizeOf, type LogRow } from './log-rows.ts'
import type { FindingReader } from './reader.ts'
import { byDirection } from './saying.ts'

/** Total fuel trim of each bank in each condition: what the fuel control adds or takes away. */
export const trim: FindingReader = {
  kind: 'trim',
  side: 'log',
  makes: 'fault',
  newAfter: 'opposes',
  directions: ['lean', 'rich'],
  role: 'sign',
  byCylinder: false,
  shift: undefined,
  read: (seen) => rowsOf(seen, 'trim').flatMap((row) => ofTest(seen, row)),
  short: byDirection({ lean: 'headline.found.trim-lean' }, 'headline.found.trim-rich'),
  plain: byDirection({ lean: 'page.found.trim-lean' }, 'page.found.trim-rich'),
  figure: () => undefined,
  again: 'page.again.trim',
}

function ofTest(seen: Seen, row: LogRow): JobFinding[] {
  const edge = limit(seen.limits, 'trimHighPct')
  return trimOf(row.test).map(({ bank, total }) => {
    const size = sizeOf(total, { low: -edge, high: edge })!
    const own = makersSide(row, bank)
    const direction = own ?? sideOf(size)
    return logFinding(row, {
      kind: 'trim',
      where: bankWhere(seen, bank),
      direction,
      size,
      sure: own === undefined ? certaintyOf(size) : 'measured',
    })
  })
}

const sideOf = ({ value, limitLow, limitHigh }: Size): Direction =>
  value > limitHigh! ? 'lean' : value < limitLow! ? 'rich' : 'none'

/** What the maker's own limits say of a bank's readings; undefined where none are given. */
function makersSide({ test }: LogRow, bank: number): Direction | undefined {
  const own = test.readings.filter((r) => r.reading.endsWith(String(bank)) && r.finding !== undefined)
  if (own.length === 0) return undefined
  const out = own.find((r) => r.finding === 'out of limits')
  if (!out)
    return own.length === test.readings.filter((r) => r.reading.endsWith(String(bank))).length
      ? 'none'
      : undefined
  return (out.value ?? 0) < (out.expectedLow ?? -Infinity) ? 'rich' : 'lean'
}

/** An engine of one bank has its trim as a whole. */
const bankWhere = ({ banks }: Seen, bank: number): Where => {
  const cylinders = banks?.[String(bank)]
  return cylinders ? { scope: 'bank', bank: String(bank), cylinders, place: undefined } : onEngine
}
