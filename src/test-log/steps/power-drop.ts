import { limit } from '../../limits/limits.ts'
import { median } from '../../maths/median.ts'
import type { LogEntry } from '../entry.ts'
import { partState } from '../outcome-words.ts'
import { cylinderReadings, type StepKind } from '../step-kind.ts'
import { againstExpected, type StepContext, type TestGroup } from '../test-group.ts'
import { partOutcomes, readParts, type PartReader } from './part.ts'

const outcomes = partState(
  {
    weak: [
      'weak',
      'dead',
      'no drop',
      'no change',
      'none',
      'less',
      'small',
      'little',
      'small drop',
      'schwach',
      'tot',
      'kein abfall',
      'keine anderung',
      'kaum',
      'faible',
      'mort',
      'aucune baisse',
      'pas de changement',
      'debil',
      'muert*',
      'sin caida',
      'sin cambio*',
    ],
  },
  { fine: ['drop*', 'contributes', 'strong', 'abfall', 'baisse', 'cae'] },
)

/** Fewer fellows cannot say which of them is weak. */
const LEAST_OTHERS = 2

/** Fall of speed with the cylinder's spark or fuel cut, against the maker's limits or the median of the others. */
function byFigure(row: LogEntry, rows: TestGroup, { limits }: StepContext): 'weak' | 'in order' | undefined {
  const own = againstExpected(row)
  if (own) return own === 'in limits' ? 'in order' : 'weak'
  const drop = (r: LogEntry) => (r.value === undefined ? undefined : Math.abs(r.value))
  const others = rows.filter((r) => r !== row && r.unit === row.unit).flatMap((r) => drop(r) ?? [])
  const mine = drop(row)
  if (mine === undefined || others.length < LEAST_OTHERS) return undefined
  return mine < (median(others)! * limit(limits, 'powerDropSharePct')) / 100 ? 'weak' : 'in order'
}

const reader: PartReader<'weak' | 'in order'> = {
  outcomes,
  byFigure,
  states: {
    weak: { says: 'tests.power-drop.weak', evidence: 'power-drop-weak', finding: 'out of limits' },
    'in order': { says: 'tests.power-drop.even', evidence: 'power-drop-even', finding: 'in limits' },
  },
  recorded: 'tests.power-drop.recorded',
}

/** How much speed falls when one cylinder is cut: what that cylinder gives. @source shop-practice */
export const powerDrop: StepKind = {
  title: 'report.step.power-drop',
  needs: {},
  readings: cylinderReadings(['rpm', '%']),
  usual: [
    { unit: 'rpm', least: -600, most: 600 },
    { unit: '%', least: -100, most: 100 },
  ],
  outcome: partOutcomes(reader, ['weak', 'in order']),
  evidence: ['power-drop-weak', 'power-drop-even'],
  cautions: ['high-voltage', 'moving', 'hot', 'exhaust'],
  read: (group, context) => readParts(group, context, reader),
}
