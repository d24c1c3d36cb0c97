import { sentence } from '../../texts/messages.ts'
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
 * the maker's limits it is not judged. A `barometer` reading beside it gives the
 * air pressure of place and day; without one the figure carries what height and weather may make of it.
 *
 * @source ISO 2533 for the air pressure; shop-practice for the vacuum of a sound engine at idle
 */
function readVacuum(group: TestGroup, { limits }: StepContext): TestFinding {
  const base = recorded(group)
  const row = measuredRows(group).findLast((r) => r.reading !== BAROMETER)
  const air = airPressure(group, limit(limits, 'gaugeReadingPct'))
  if (!row) return air.read ? { ...base, computed: { barometerKpa: air.kpa } } : base
  const kpa = toKpa(row.value, row.unit as PressureUnit)
  const gauge = row.unit === 'inHg' || kpa < 0
  const read = withShare(Math.abs(kpa), limit(limits, 'gaugeReadingPct'), 'kPa')
  const absolute: Interval<'kPa'> = gauge
    ? {
        value: air.kpa.value - read.value,
        low: air.kpa.value - read.value - Math.hypot(air.kpa.value - air.kpa.low, read.value - read.low),
        high: air.kpa.value - read.value + Math.hypot(air.kpa.high - air.kpa.value, read.high - read.value),
        unit: 'kPa',
      }
    : read
  const computed: Record<string, Interval> = {
    manifoldKpa: absolute,
    ...(air.read ? { barometerKpa: air.kpa } : {}),
  }
  const own = againstExpected(row)
  const side = own === 'out of limits' ? vacuumSide(sideOf(row), gauge && kpa >= 0) : undefined
  const state = own
    ? (side ?? ('in order' as const))
    : gauge && base.condition === 'idle'
      ? againstPractice(air, { vacuumKpa: Math.abs(kpa), leastKpa: limit(limits, 'idleVacuumLowKpa') })
      : undefined
  const facts: Fact[] = state ? [{ kind: 'vacuum', state, stage: base.stage, sure: own !== undefined }] : []
  return {
    ...base,
    computed,
    effect: absolute,
    facts,
    finding: state === undefined ? 'recorded' : state === 'in order' ? 'in limits' : 'out of limits',
    says: [
      sentence(state === undefined ? 'tests.vacuum.recorded' : SAYS[state], { absolute }),
      !gauge
        ? sentence('tests.vacuum.as-absolute')
        : air.read
          ? sentence('tests.vacuum.as-gauge-barometer', { barometer: air.kpa })
          : sentence('tests.vacuum.as-gauge'),
    ],
  }
}

const SAYS = {
  low: 'tests.vacuum.low',
  high: 'tests.vacuum.high',
  'in order': 'tests.vacuum.in-order',
} as const

/** A low figure is a low vacuum only where the figure counts the vacuum upwards. */
const vacuumSide = (side: 'low' | 'high', countsVacuum: boolean): 'low' | 'high' =>
  (side === 'low') === countsVacuum ? 'low' : 'high'

interface AirPressure {
  kpa: Interval<'kPa'>
  /** Read and noted; else the standard one with what height and weather may make of it. */
  read: boolean
}

/**
 * What the air pressure may be where nobody read it, kPa: from the standard one down to that of 1600 m, which many live
 * at, and a little up for weather. @source ISO 2533 (83.5 kPa at 1600 m, from memory)
 */
const UNREAD: Interval<'kPa'> = { value: ATMOSPHERE_KPA, low: 83, high: 104, unit: 'kPa' }
export const BAROMETER = 'barometer'

function airPressure(group: TestGroup, gaugePct: number): AirPressure {
  const row = measuredRows(group).findLast((r) => r.reading === BAROMETER)
  return row
    ? { kpa: withShare(toKpa(row.value, row.unit as PressureUnit), gaugePct, 'kPa'), read: true }
    : { kpa: UNREAD, read: false }
}

/**
 * A vacuum too low by practice, which is that of sea level: at height an engine has as much less as the air has. Where
 * the air pressure was not read, only a vacuum that is too low at any usual height counts as low.
 */
function againstPractice(
  { kpa, read }: AirPressure,
  it: { vacuumKpa: number; leastKpa: number },
): 'low' | 'in order' | undefined {
  const least = (airKpa: number) => (it.leastKpa * airKpa) / ATMOSPHERE_KPA
  if (it.vacuumKpa < least(read ? kpa.value : kpa.low)) return 'low'
  return it.vacuumKpa >= least(read ? kpa.value : ATMOSPHERE_KPA) ? 'in order' : undefined
}

export const vacuum: StepKind = {
  title: 'report.step.vacuum',
  needs: { reading: true, value: true },
  readings: oneOf(['manifold', BAROMETER], () => PRESSURE_UNITS),
  usual: [
    { reading: 'manifold', unit: 'kPa', least: 0, most: 101 },
    { reading: BAROMETER, unit: 'kPa', least: 55, most: 108 },
  ],
  evidence: ['vacuum-low', 'vacuum-in-order'],
  cautions: ['moving', 'exhaust'],
  read: readVacuum,
}
