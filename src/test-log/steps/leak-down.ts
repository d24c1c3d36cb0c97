import { limit } from '../../limits/limits.ts'
import type { LogEntry } from '../entry.ts'
import { partState, readOutcome } from '../outcome-words.ts'
import { cylinderReadings, type StepKind } from '../step-kind.ts'
import { againstExpected, type StepContext, type TestGroup } from '../test-group.ts'
import { partOutcomes, readParts, type PartReader } from './part.ts'

type State = 'intake' | 'exhaust' | 'crankcase' | 'coolant' | 'leaks' | 'in order'

const outcomes = partState(
  {
    leaks: ['leak*', 'high', 'bad', 'undicht', 'leckt', 'hoch', 'fuit', 'fuite*', 'fuga*', 'alta'],
    intake: [
      'intake',
      'inlet',
      'throttle',
      'air filter',
      'ansaug*',
      'einlass*',
      'drosselklappe',
      'admission',
      'papillon',
      'admision',
      'mariposa',
    ],
    exhaust: ['exhaust', 'tailpipe', 'tail pipe', 'auspuff*', 'auslass*', 'abgas*', 'echappement', 'escape'],
    crankcase: [
      'crankcase',
      'oil filler',
      'filler',
      'dipstick',
      'rings',
      'ring',
      'breather',
      'kurbelgehause',
      'oleinfull*',
      'kolbenring*',
      'carter',
      'jauge',
      'segment*',
      'varilla',
      'llenado',
    ],
    coolant: [
      'coolant',
      'radiator',
      'bubbles',
      'expansion tank',
      'next cylinder',
      'head gasket',
      'kuhl*',
      'nachbarzylinder',
      'zylinderkopfdichtung',
      'refroidissement',
      'liquide',
      'joint de culasse',
      'refrigerante',
      'radiador',
      'junta de culata',
      'junta',
    ],
  },
  {
    fine: ['tight', 'holds', 'dicht', 'halt', 'etanche', 'tient', 'estanc*', 'aguanta'],
    together: ['intake', 'exhaust', 'crankcase', 'coolant', 'leaks'],
  },
)

/** Loss of a row in %; undefined where it has none. */
const lossOf = ({ value, unit }: LogEntry): number | undefined => (unit === '%' ? value : undefined)

const isHigh = (row: LogEntry, { limits }: StepContext): boolean | undefined => {
  const own = againstExpected(row)
  const loss = lossOf(row)
  return own ? own === 'out of limits' : loss === undefined ? undefined : loss > limit(limits, 'leakDownPct')
}

const reader: PartReader<State> = {
  outcomes,
  // Where the air goes is told by the outcome; the figure decides whether it is too much.
  byFigure: (row, _: TestGroup, context) => {
    const high = isHigh(row, context)
    if (high === undefined) return undefined
    if (!high) return 'in order'
    const where = readOutcome(row.outcome, outcomes)
    return where === undefined || where === 'in order' ? 'leaks' : where
  },
  states: {
    leaks: { says: 'tests.leak-down.leaks', evidence: 'leak-down-high', finding: 'out of limits' },
    intake: { says: 'tests.leak-down.intake', evidence: 'leak-down-high', finding: 'out of limits' },
    exhaust: { says: 'tests.leak-down.exhaust', evidence: 'leak-down-high', finding: 'out of limits' },
    crankcase: { says: 'tests.leak-down.crankcase', evidence: 'leak-down-high', finding: 'out of limits' },
    coolant: { says: 'tests.leak-down.coolant', evidence: 'leak-down-high', finding: 'out of limits' },
    'in order': { says: 'tests.leak-down.in-order', evidence: 'leak-down-in-order', finding: 'in limits' },
  },
  recorded: 'tests.leak-down.recorded',
}

/** Loss of air put into a cylinder at top dead centre, and where it goes. @source shop-practice */
export const leakDown: StepKind = {
  title: 'report.step.leak-down',
  needs: {},
  readings: cylinderReadings(['%']),
  neverNegative: true,
  usual: [{ unit: '%', least: 0, most: 100 }],
  outcome: partOutcomes(reader, ['intake', 'exhaust', 'crankcase', 'coolant', 'in order']),
  evidence: ['leak-down-high', 'leak-down-in-order'],
  cautions: ['compressed-air', 'moving', 'hot', 'high-voltage'],
  read: (group, context) => readParts(group, context, reader),
}
