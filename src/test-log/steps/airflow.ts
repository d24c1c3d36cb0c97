import { sentence } from '../../texts/messages.ts'
import { limit } from '../../limits/limits.ts'
import type { TestFinding } from '../findings.ts'
import {
  againstExpected,
  measuredRows,
  recorded,
  worst,
  type StepContext,
  type TestGroup,
} from '../test-group.ts'
import { withShare } from './intervals.ts'
import { oneOf, type StepKind } from '../step-kind.ts'

/** Air the meter counts, g/s, against the maker's limits; what it means beside the trims is in unmetered-air.ts. */
function readAirflow(group: TestGroup, { limits }: StepContext): TestFinding {
  const base = recorded(group)
  const row = measuredRows(group).at(-1)
  if (!row) return base
  const air = withShare(row.value, limit(limits, 'airReadingPct'), 'g/s')
  const finding = worst(group.map(againstExpected))
  const key =
    finding === 'recorded'
      ? 'tests.airflow.recorded'
      : finding === 'in limits'
        ? 'tests.airflow.in-order'
        : 'tests.airflow.out'
  return { ...base, computed: { meteredAir: air }, effect: air, finding, says: [sentence(key, { air })] }
}

export const airflow: StepKind = {
  title: 'report.step.airflow',
  needs: { reading: true, value: true },
  readings: oneOf(['MAF'], () => ['g/s']),
  neverNegative: true,
  usual: [{ unit: 'g/s', least: 0, most: 1000 }],
  evidence: ['air-agrees', 'air-disagrees'],
  cautions: ['moving', 'exhaust'],
  read: readAirflow,
}
