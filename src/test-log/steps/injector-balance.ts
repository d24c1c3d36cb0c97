import { limit } from '../../limits/limits.ts'
import { median } from '../../maths/median.ts'
import type { LogEntry } from '../entry.ts'
import { partState } from '../outcome-words.ts'
import { cylinderReadings, PRESSURE_UNITS, type StepKind } from '../step-kind.ts'
import { againstExpected, sideOf, type StepContext, type TestGroup } from '../test-group.ts'
import { partOutcomes, readParts, type PartReader } from './part.ts'

type State = 'less' | 'more' | 'in order'

const outcomes = partState({
  less: [
    'less',
    'low',
    'lower',
    'restrict*',
    'clogged',
    'blocked',
    'weak',
    'poor',
    'weniger',
    'zu wenig',
    'verstopft',
    'schwach',
    'moins',
    'bouche*',
    'faible',
    'menos',
    'obstruid*',
    'tapad*',
    'debil',
  ],
  more: [
    'more',
    'high',
    'higher',
    'drip*',
    'leak*',
    'dribbl*',
    'mehr',
    'zu viel',
    'tropft',
    'undicht',
    'leckt',
    'plus',
    'goutte*',
    'fuit',
    'fuite*',
    'mas',
    'gote*',
    'fuga*',
  ],
})

/** Fewer fellows cannot say which of them is odd. */
const LEAST_OTHERS = 2

/**
 * What each injector passes, by pressure drop of equal pulses, volume or flow, against the maker's limits or the median
 * of the others.
 */
function byFigure(row: LogEntry, rows: TestGroup, { limits }: StepContext): State | undefined {
  const own = againstExpected(row)
  if (own === 'in limits') return 'in order'
  if (own === 'out of limits') return sideOf(row) === 'low' ? 'less' : 'more'
  const others = rows.flatMap((r) =>
    r !== row && r.value !== undefined && r.unit === row.unit ? [r.value] : [],
  )
  if (row.value === undefined || others.length < LEAST_OTHERS) return undefined
  const middle = median(others)!
  const apart = limit(limits, 'injectorApartPct') / 100
  if (middle <= 0) return undefined
  if (row.value < middle * (1 - apart)) return 'less'
  return row.value > middle * (1 + apart) ? 'more' : 'in order'
}

const reader: PartReader<State> = {
  outcomes,
  byFigure,
  states: {
    less: { says: 'tests.injector-balance.less', evidence: 'injector-passes-less', finding: 'out of limits' },
    more: { says: 'tests.injector-balance.more', evidence: 'injector-passes-more', finding: 'out of limits' },
    'in order': { says: 'tests.injector-balance.even', evidence: 'injectors-even', finding: 'in limits' },
  },
  recorded: 'tests.injector-balance.recorded',
}

/** How much each injector passes. @source shop-practice */
export const injectorBalance: StepKind = {
  title: 'report.step.injector-balance',
  needs: {},
  readings: cylinderReadings([...PRESSURE_UNITS, 'ml', '%', 'g/s']),
  outcome: partOutcomes(reader, ['less', 'more', 'drips', 'in order']),
  neverNegative: true,
  evidence: ['injector-passes-less', 'injector-passes-more', 'injectors-even'],
  cautions: ['vapour', 'hot'],
  read: (group, context) => readParts(group, context, reader),
}
