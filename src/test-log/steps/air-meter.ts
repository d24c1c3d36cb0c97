import type { LogEntry } from '../entry.ts'
import { partState } from '../outcome-words.ts'
import { oneOf, type StepKind } from '../step-kind.ts'
import { againstExpected, sideOf } from '../test-group.ts'
import { partOutcomes, readParts, type PartReader } from './part.ts'

type State = 'low' | 'high' | 'in order'
const byFigure = (row: LogEntry): State | undefined => {
  const own = againstExpected(row)
  return own === undefined ? undefined : own === 'in limits' ? 'in order' : sideOf(row)
}
const reader: PartReader<State> = {
  outcomes: partState({
    low: [
      'de menos',
      'low',
      'too low',
      'too little',
      'reads low',
      'under*',
      'dirty',
      'niedrig',
      'zu wenig',
      'zu niedrig',
      'verschmutzt',
      'bas',
      'trop bas',
      'trop peu',
      'sale',
      'bajo',
      'baja',
      'poco',
      'suci*',
    ],
    high: [
      'high',
      'too high',
      'too much',
      'reads high',
      'hoch',
      'zu hoch',
      'zu viel',
      'haut',
      'trop',
      'alto',
      'demasiado',
    ],
  }),
  byFigure,
  states: {
    low: { says: 'tests.air-meter.low', evidence: 'air-meter-counts-low', finding: 'out of limits' },
    high: { says: 'tests.air-meter.high', evidence: 'air-meter-counts-high', finding: 'out of limits' },
    'in order': {
      says: 'tests.air-meter.in-order',
      evidence: 'air-meter-counts-right',
      finding: 'in limits',
    },
  },
  recorded: 'tests.air-meter.recorded',
}

/** What the air meter counts against what the engine must draw at its speed. @source shop-practice; the maker's limits as logged */
export const airMeter: StepKind = {
  title: 'report.step.air-meter',
  needs: {},
  readings: oneOf(['idle', 'raised', 'full-load'], () => ['g/s']),
  neverNegative: true,
  usual: [{ unit: 'g/s', least: 0, most: 1000 }],
  outcome: partOutcomes(reader, ['low', 'high', 'in order']),
  evidence: ['air-meter-counts-low', 'air-meter-counts-high', 'air-meter-counts-right'],
  cautions: ['moving'],
  read: (group, context) => readParts(group, context, reader),
}
