import { limit } from '../../limits/limits.ts'
import type { Job } from '../../job/schema.ts'
import type { LogEntry } from '../entry.ts'
import { partState } from '../outcome-words.ts'
import { oneOf, type StepKind } from '../step-kind.ts'
import { againstExpected, type StepContext, type TestGroup } from '../test-group.ts'
import { partOutcomes, readParts, type PartReader } from './part.ts'

const outcomes = partState({
  wrong: [
    'not the fuel',
    'not right',
    'nicht der richtige',
    'pas le carburant',
    'no es el combustible',
    'wrong',
    'water',
    'diesel',
    'contaminat*',
    'stale',
    'old',
    'too much ethanol',
    'separat*',
    'bad',
    'falsch*',
    'wasser',
    'alt',
    'verunreinigt',
    'schlecht',
    'mauvais',
    'eau',
    'gazole',
    'vieux',
    'pollue',
    'agua',
    'gasoleo',
    'viejo',
    'contaminad*',
    'malo',
    'equivocad*',
  ],
})

/** Most ethanol each fuel may hold, % by volume. @source EN 228 for E5 and E10, EN 15293 for E85; from memory */
const MOST_ETHANOL: Readonly<Record<Job['engine']['fuel'], number | undefined>> = {
  E0: 1,
  E5: 5,
  E10: 10,
  E85: 85,
  LPG: undefined,
  CNG: undefined,
}

/** Ethanol against the maker's limits, else against what the job's fuel may hold and the test's own doubt. */
function byFigure(
  row: LogEntry,
  _: TestGroup,
  { job, limits }: StepContext,
): 'wrong' | 'in order' | undefined {
  const own = againstExpected(row)
  if (own) return own === 'in limits' ? 'in order' : 'wrong'
  if (row.reading === 'water')
    return row.value === undefined ? undefined : row.value > 0 ? 'wrong' : 'in order'
  const most = MOST_ETHANOL[job.engine.fuel]
  if (row.value === undefined || most === undefined) return undefined
  return row.value > most + limit(limits, 'ethanolReadingPct') ? 'wrong' : 'in order'
}

const reader: PartReader<'wrong' | 'in order'> = {
  outcomes,
  byFigure,
  states: {
    wrong: { says: 'tests.fuel-sample.wrong', evidence: 'fuel-wrong', finding: 'out of limits' },
    'in order': { says: 'tests.fuel-sample.in-order', evidence: 'fuel-right', finding: 'in limits' },
  },
  recorded: 'tests.fuel-sample.recorded',
}

/** A sample of the fuel: ethanol, water, wrong fuel. @source shop-practice */
export const fuelSample: StepKind = {
  title: 'report.step.fuel-sample',
  needs: {},
  readings: oneOf(['ethanol', 'water'], () => ['%', '%vol']),
  neverNegative: true,
  usual: [
    { unit: '%', least: 0, most: 100 },
    { unit: '%vol', least: 0, most: 100 },
  ],
  outcome: partOutcomes(reader, ['wrong', 'water', 'in order']),
  evidence: ['fuel-wrong', 'fuel-right'],
  cautions: ['vapour'],
  read: (group, context) => readParts(group, context, reader),
}
