import { limit } from '../../limits/limits.ts'
import { isPressureUnit, toKpa } from '../../units/pressure.ts'
import type { LogEntry } from '../entry.ts'
import { partState } from '../outcome-words.ts'
import { oneOf, PRESSURE_UNITS, type StepKind } from '../step-kind.ts'
import { againstExpected, type StepContext, type TestGroup } from '../test-group.ts'
import { partOutcomes, readParts, type PartReader } from './part.ts'

const outcomes = partState(
  {
    high: [
      'high',
      'too high',
      'restrict*',
      'blocked',
      'clogged',
      'plugged',
      'hoch',
      'zu hoch',
      'verstopft',
      'zu',
      'elevee',
      'trop elevee',
      'bouche*',
      'colmate*',
      'alta',
      'muy alta',
      'obstruid*',
      'tapad*',
    ],
  },
  { fine: ['low', 'free', 'clear', 'frei', 'libre', 'faible', 'baja'] },
)

/** Against the maker's limits, else against what practice allows at idle or at raised speed. */
function byFigure(row: LogEntry, _: TestGroup, { limits }: StepContext): 'high' | 'in order' | undefined {
  const own = againstExpected(row)
  if (own) return own === 'in limits' ? 'in order' : 'high'
  if (row.value === undefined || row.unit === undefined || !isPressureUnit(row.unit)) return undefined
  const most = limit(limits, row.reading === 'idle' ? 'backPressureIdleKpa' : 'backPressureRaisedKpa')
  return toKpa(row.value, row.unit) > most ? 'high' : 'in order'
}

const raised: PartReader<'high' | 'in order'> = {
  outcomes,
  byFigure,
  states: {
    high: { says: 'tests.back-pressure.high', evidence: 'back-pressure-high', finding: 'out of limits' },
    'in order': {
      says: 'tests.back-pressure.in-order',
      evidence: 'back-pressure-in-order',
      finding: 'in limits',
    },
  },
  recorded: 'tests.back-pressure.recorded',
}
/** In order at idle it may be too high under load all the same: that weighs for nothing. */
const idle: PartReader<'high' | 'in order'> = {
  ...raised,
  states: { ...raised.states, 'in order': { ...raised.states['in order'], evidence: undefined } },
}

/** Pressure in the exhaust before the catalyst, over the air's. @source shop-practice; the maker's limits as logged */
export const backPressure: StepKind = {
  title: 'report.step.back-pressure',
  needs: { reading: true },
  readings: oneOf(['idle', 'raised'], () => PRESSURE_UNITS),
  neverNegative: true,
  usual: [{ unit: 'kPa', least: 0, most: 150 }],
  outcome: partOutcomes(raised, ['high', 'in order']),
  evidence: ['back-pressure-high', 'back-pressure-in-order'],
  cautions: ['exhaust', 'hot', 'moving'],
  read: (group, context) => readParts(group, context, group[0].reading === 'idle' ? idle : raised),
}
