import { limit } from '../../limits/limits.ts'
import { ATMOSPHERE_KPA, toKpa, type PressureUnit } from '../../units/pressure.ts'
import type { Interval } from '../../units/measured.ts'
import type { Fact } from '../fact.ts'
import type { TestFinding } from '../findings.ts'
import {
  againstExpected,
  measuredRows,
  recorded,
  sideOf,
  type StepContext,
  type TestGroup,
} from '../test-group.ts'
import { oneOf, PRESSURE_UNITS, type StepKind } from '../step-kind.ts'
import { withShare } from './intervals.ts'

/**
 * Manifold vacuum, given as absolute manifold pressure.
 *
 * A figure in inches of mercury or below zero is a vacuum gauge's: so much under the air pressure. A positive figure in
 * kPa, psi or bar can be either that or an absolute pressure; it is taken as absolute, the report says so, and without
 * the maker's limits it is not judged. Height and weather move the air pressure by some kPa; the standard one is used.
 *
 * @source ISO 2533 for the air pressure; shop-practice for the vacuum of a sound engine at idle
 */
function readVacuum(group: TestGroup, { limits }: StepContext): TestFinding {
  const base = recorded(group)
  const row = measuredRows(group).at(-1)
  if (!row) return base
  const kpa = toKpa(row.value, row.unit as PressureUnit)
  const gauge = row.unit === 'inHg' || kpa < 0
  const absolute = withShare(
    gauge ? ATMOSPHERE_KPA - Math.abs(kpa) : kpa,
    limit(limits, 'gaugeReadingPct'),
    'kPa',
  )
  const computed: Record<string, Interval> = { manifoldKpa: absolute }
  const own = againstExpected(row)
  const side = own === 'out of limits' ? vacuumSide(sideOf(row), gauge && kpa >= 0) : undefined
  const state = own
    ? (side ?? ('in order' as const))
    : gauge && base.condition === 'idle'
      ? againstPractice(Math.abs(kpa), limit(limits, 'idleVacuumLowKpa'))
      : undefined
  const key = state === undefined ? 'recorded' : state === 'in order' ? 'in-order' : state
  const facts: Fact[] = state ? [{ kind: 'vacuum', state, stage: base.stage, sure: own !== undefined }] : []
  return {
    ...base,
    computed,
    effect: absolute,
    facts,
    finding: state === undefined ? 'recorded' : state === 'in order' ? 'in limits' : 'out of limits',
    says: [
      { key: `tests.vacuum.${key}`, args: { absolute } },
      { key: gauge ? 'tests.vacuum.as-gauge' : 'tests.vacuum.as-absolute', args: {} },
    ],
  }
}

/** A low figure is a low vacuum only where the figure counts the vacuum upwards. */
const vacuumSide = (side: 'low' | 'high', countsVacuum: boolean): 'low' | 'high' =>
  (side === 'low') === countsVacuum ? 'low' : 'high'

const againstPractice = (vacuumKpa: number, leastKpa: number): 'low' | 'in order' =>
  vacuumKpa < leastKpa ? 'low' : 'in order'

export const vacuum: StepKind = {
  title: 'report.step.vacuum',
  needs: { reading: true, value: true },
  readings: oneOf(['manifold'], () => PRESSURE_UNITS),
  usual: [{ unit: 'kPa', least: 0, most: 101 }],
  evidence: ['vacuum-low', 'vacuum-in-order'],
  cautions: ['moving', 'exhaust'],
  read: readVacuum,
}
