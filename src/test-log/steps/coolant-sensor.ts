import { limit } from '../../limits/limits.ts'
import { isTemperatureUnit, TEMPERATURE_UNITS, toCelsius } from '../../units/temperature.ts'
import type { LogEntry } from '../entry.ts'
import { partState } from '../outcome-words.ts'
import { oneOf, type StepKind } from '../step-kind.ts'
import { againstExpected, sideOf, type StepContext, type TestGroup } from '../test-group.ts'
import { partOutcomes, readParts, type PartReader } from './part.ts'

type State = 'cold' | 'hot' | 'in order'

const celsius = ({ value, unit }: LogEntry): number | undefined =>
  value === undefined || unit === undefined || !isTemperatureUnit(unit) ? undefined : toCelsius(value, unit)

/**
 * Against the maker's limits; else what no coolant of an engine has (a wire off, a short to ground); else against the
 * reference of the same test. One reading alone says nothing: nobody knows how warm the engine was.
 */
function byFigure(row: LogEntry, rows: TestGroup, { limits }: StepContext): State | undefined {
  if (row.reading !== 'coolant') return undefined
  const own = againstExpected(row)
  if (own) return own === 'in limits' ? 'in order' : SIDE[sideOf(row)]
  const coolant = celsius(row)
  if (coolant === undefined) return undefined
  if (coolant <= limit(limits, 'coolantLowestC')) return 'cold'
  if (coolant >= limit(limits, 'coolantHighestC')) return 'hot'
  const reference = rows.filter((r) => r.reading === 'reference').flatMap((r) => celsius(r) ?? [])[0]
  if (reference === undefined) return undefined
  const apart = coolant - reference
  if (Math.abs(apart) <= limit(limits, 'coolantApartC')) return 'in order'
  return apart < 0 ? 'cold' : 'hot'
}
const SIDE = { low: 'cold', high: 'hot' } as const

const reader: PartReader<State> = {
  outcomes: partState({
    cold: [
      'cold',
      'too cold',
      'reads cold',
      'stays cold',
      'low',
      'too low',
      'kalt',
      'zu kalt',
      'zu niedrig',
      'froid*',
      'trop froid*',
      'trop bas',
      'fri*',
      'frio',
      'demasiado frio',
      'baja',
    ],
    hot: [
      'hot',
      'too hot',
      'reads hot',
      'warm',
      'too warm',
      'high',
      'too high',
      'heiss',
      'zu heiss',
      'zu warm',
      'zu hoch',
      'chaud*',
      'trop chaud*',
      'trop haut',
      'caliente',
      'demasiado caliente',
      'alta',
    ],
  }),
  byFigure,
  states: {
    cold: { says: 'tests.coolant-sensor.cold', evidence: 'coolant-reads-cold', finding: 'out of limits' },
    hot: { says: 'tests.coolant-sensor.hot', evidence: 'coolant-reads-hot', finding: 'out of limits' },
    'in order': {
      says: 'tests.coolant-sensor.in-order',
      evidence: 'coolant-reads-right',
      finding: 'in limits',
    },
  },
  recorded: 'tests.coolant-sensor.recorded',
}

/**
 * What the control unit takes for the coolant's temperature, against a thermometer at its housing, or with a cold engine
 * against the air it stood in. @source shop-practice
 */
export const coolantSensor: StepKind = {
  title: 'report.step.coolant-sensor',
  needs: {},
  readings: oneOf(['coolant', 'reference'], () => TEMPERATURE_UNITS),
  usual: [
    { unit: '°C', least: -45, most: 150, world: [-60, 250] },
    { unit: '°F', least: -49, most: 302, world: [-76, 482] },
  ],
  outcome: partOutcomes(reader, ['reads cold', 'reads hot', 'in order']),
  evidence: ['coolant-reads-cold', 'coolant-reads-hot', 'coolant-reads-right'],
  cautions: ['hot', 'moving'],
  read: (group, context) => readParts(group, context, reader),
}
