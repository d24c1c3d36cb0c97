import { limit } from '../../limits/limits.ts'
import type { Seen } from '../seen.ts'
import type { JobFinding } from '../finding.ts'
import { logFinding, rowsOf, sizeOf, type LogRow } from './log-rows.ts'
import type { FindingReader } from './reader.ts'
import { byDirection } from './saying.ts'

const DIRECTIONS = { low: 'low', high: 'high', falls: 'falls', 'in order': 'none' } as const
const COMPUTED = { 'key-on': 'keyOnKpa', idle: 'idleKpa', hold: 'holdKpa' } as const

/** Fuel pressure against the maker's limits, and what is lost on hold. */
export const fuelPressure: FindingReader = {
  kind: 'fuel-pressure',
  side: 'log',
  makes: 'fault',
  newAfter: 'opposes',
  directions: ['low', 'high', 'falls'],
  role: 'names',
  byCylinder: false,
  shift: undefined,
  read: (seen) => rowsOf(seen, 'fuel-pressure').flatMap((row) => ofTest(seen, row)),
  short: byDirection(
    { low: 'headline.found.fuel-pressure-low', high: 'headline.found.fuel-pressure-high' },
    'headline.found.fuel-pressure-falls',
  ),
  plain: byDirection(
    { low: 'page.found.fuel-pressure-low', high: 'page.found.fuel-pressure-high' },
    'page.found.fuel-pressure-falls',
  ),
  figure: () => undefined,
  again: 'page.again.fuel-pressure',
}

function ofTest({ limits }: Seen, row: LogRow): JobFinding[] {
  const { facts = [], computed, readings } = row.test
  const pressures = facts.filter((fact) => fact.kind === 'fuel-pressure')
  return (['key-on', 'idle', 'hold'] as const).flatMap((reading) => {
    const of = pressures.filter((fact) => fact.reading === reading)
    const worst = SEVERITY.find((state) => of.some((fact) => fact.state === state))
    if (worst === undefined) return []
    const own = readings.find((r) => r.reading === reading)
    const kpa = computed[COMPUTED[reading]]
    const inKpa = (edge: number | undefined) =>
      edge === undefined || !own?.value || !kpa ? undefined : (edge * kpa.value) / own.value
    // what stands below its limit on hold has been lost there, whether or not a reading before tells how much
    const onHold = reading === 'hold' && worst === 'low' ? 'falls' : worst
    const lost = reading === 'hold' && (worst === 'falls' || worst === 'in order') && computed['holdLoss']
    const size = lost
      ? sizeOf(lost, { high: limit(limits, 'fuelHoldLossPct') })
      : sizeOf(kpa, { low: inKpa(own?.expectedLow), high: inKpa(own?.expectedHigh) })
    return [logFinding(row, { kind: 'fuel-pressure', direction: DIRECTIONS[onHold], reading, size })]
  })
}

/** What is lost on hold and a pressure out of its limits there are one matter. */
const SEVERITY = ['falls', 'high', 'low', 'in order'] as const
