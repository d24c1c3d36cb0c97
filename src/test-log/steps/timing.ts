import type { LogEntry } from '../entry.ts'
import { partState } from '../outcome-words.ts'
import { oneOf, type StepKind } from '../step-kind.ts'
import { againstExpected, type TestGroup } from '../test-group.ts'
import { partOutcomes, readParts, type PartReader } from './part.ts'

const outcomes = partState(
  {
    off: [
      'out',
      'off',
      'marks out',
      'jumped',
      'slipped',
      'late',
      'early',
      'retard*',
      'advanced',
      'teeth',
      'tooth',
      'verstellt',
      'daneben',
      'ubergesprungen',
      'spat',
      'fruh',
      'decale*',
      'saute*',
      'retard',
      'avance',
      'fuera',
      'saltad*',
      'atrasad*',
      'adelantad*',
    ],
  },
  {
    fine: [
      'marks right',
      'marks line up',
      'lined up',
      'line up',
      'in time',
      'aligned',
      'fluchten',
      'alignes',
      'cales',
      'alinead*',
      'en punto',
    ],
  },
)
type State = 'off' | 'in order'
const byFigure = (row: LogEntry): State | undefined => {
  const own = againstExpected(row)
  return own === undefined ? undefined : own === 'in limits' ? 'in order' : 'off'
}
const valve: PartReader<State> = {
  outcomes,
  byFigure,
  states: {
    off: { says: 'tests.timing.off', evidence: 'timing-out', finding: 'out of limits' },
    'in order': { says: 'tests.timing.in-order', evidence: 'timing-in-order', finding: 'in limits' },
  },
  recorded: 'tests.timing.recorded',
}
/** The instant of the spark is set by the control unit; that it is off is shown, and weighs for no listed cause. */
const ignition: PartReader<State> = {
  ...valve,
  states: {
    off: { says: 'tests.timing.ignition-off', evidence: undefined, finding: 'out of limits' },
    'in order': { says: 'tests.timing.ignition-in-order', evidence: undefined, finding: 'in limits' },
  },
}
const isIgnition = (group: TestGroup): boolean => group[0].reading === 'ignition'

/** Valve timing at its marks (the default), or the instant of the spark. @source shop-practice; the maker's limits as logged */
export const timing: StepKind = {
  title: 'report.step.timing',
  needs: {},
  readings: oneOf(['valve', 'ignition'], () => ['deg']),
  usual: [{ unit: 'deg', least: -60, most: 90 }],
  outcome: partOutcomes(valve, ['marks right', 'marks out']),
  evidence: ['timing-out', 'timing-in-order'],
  cautions: ['moving', 'hot'],
  read: (group, context) => readParts(group, context, isIgnition(group) ? ignition : valve),
}
