import { sentence } from '../../texts/messages.ts'
import { limit } from '../../limits/limits.ts'
import { toKpa, type PressureUnit } from '../../units/pressure.ts'
import type { Interval } from '../../units/measured.ts'
import type { Fact } from '../fact.ts'
import type { Says, TestFinding } from '../findings.ts'
import { cylinderOf, cylinderReadings, PRESSURE_UNITS, type StepKind } from '../step-kind.ts'
import {
  againstExpected,
  measuredRows,
  recorded,
  sideOf,
  worst,
  type StepContext,
  type TestGroup,
} from '../test-group.ts'
import { withShare } from './intervals.ts'

interface CylinderReading {
  cylinder: number
  kpa: Interval<'kPa'>
  sharePct: number
  state: 'low' | 'in order' | 'high'
  judged: boolean
}

/**
 * Compression of the cylinders: each against the highest of the same test and against the maker's limits.
 * Low is below `compressionSharePct` of the highest, or below the maker's lowest. The gauge's own error is common to all
 * cylinders and leaves the ratio nearly untouched; all low alike cannot be seen without the maker's limits.
 *
 * @source shop-practice for 75 %; the vehicle maker's limits as logged
 */
function readCompression(group: TestGroup, { limits }: StepContext): TestFinding {
  const base = recorded(group)
  const least = limit(limits, 'compressionSharePct')
  const readings = readingsOf(group, { least, gaugePct: limit(limits, 'gaugeReadingPct') })
  const judged = readings.filter((r) => r.judged)
  const computed: Record<string, Interval> = Object.fromEntries(
    readings.map((r) => [`cylinder${r.cylinder}Kpa`, r.kpa]),
  )
  const lowest = [...readings].sort((a, b) => a.sharePct - b.sharePct)[0]
  const effect =
    readings.length > 1 && lowest ? ratioOf(lowest.sharePct, limit(limits, 'gaugeRepeatPct')) : undefined
  if (effect) computed['lowestToHighest'] = effect
  const facts: Fact[] = judged.map((r) => ({
    kind: 'compression',
    cylinder: r.cylinder,
    state: r.state,
    stage: base.stage,
    sure: true,
  }))
  const finding = judged.length
    ? worst(judged.map((r) => (r.state === 'in order' ? 'in limits' : 'out of limits')))
    : 'recorded'
  return {
    ...base,
    computed,
    facts,
    finding,
    says: statements(judged, { lowest: effect, least, measured: readings.length }),
    ...(effect ? { effect } : {}),
  }
}

/** The lowest as a share of the highest: the gauge's gain falls out, what it repeats to stays, of either reading. */
const ratioOf = (sharePct: number, repeatPct: number): Interval<'%'> => {
  const half = (sharePct * Math.SQRT2 * repeatPct) / 100
  return { value: sharePct, low: sharePct - half, high: Math.min(100, sharePct + half), unit: '%' }
}

function readingsOf(group: TestGroup, it: { least: number; gaugePct: number }): CylinderReading[] {
  const rows = measuredRows(group).flatMap((e) => {
    const cylinder = cylinderOf(e.reading)
    return cylinder === undefined ? [] : [{ entry: e, cylinder, kpa: toKpa(e.value, e.unit as PressureUnit) }]
  })
  const highest = Math.max(...rows.map((r) => r.kpa))
  const cylinders = new Set(rows.map((r) => r.cylinder)).size
  return rows.map(({ entry, cylinder, kpa }) => {
    const sharePct = highest > 0 ? (100 * kpa) / highest : 0
    const own = againstExpected(entry)
    const byMaker = own === 'out of limits' ? sideOf(entry) : undefined
    const byRatio = cylinders > 1 && sharePct < it.least ? ('low' as const) : undefined
    return {
      cylinder,
      kpa: withShare(kpa, it.gaugePct, 'kPa'),
      sharePct,
      state: byMaker ?? byRatio ?? 'in order',
      judged: own !== undefined || cylinders > 1,
    }
  })
}

function statements(
  readings: readonly CylinderReading[],
  it: { lowest: Interval | undefined; least: number; measured: number },
): Says[] {
  if (readings.length === 0) return [sentence('tests.compression.single')]
  const says = readings
    .filter((r) => r.state !== 'in order')
    .map((r): Says =>
      sentence(r.state === 'low' ? 'tests.compression.low' : 'tests.compression.high', {
        cylinder: r.cylinder,
        kpa: r.kpa,
        sharePct: r.sharePct,
        limitPct: it.least,
      }),
    )
  if (says.length) return says
  return it.lowest
    ? [sentence('tests.compression.even', { lowest: it.lowest, limitPct: it.least })]
    : [sentence('tests.compression.in-order')]
}

export const compression: StepKind = {
  title: 'report.step.compression',
  needs: { reading: true, value: true },
  readings: cylinderReadings(PRESSURE_UNITS),
  neverNegative: true,
  usual: [{ unit: 'kPa', least: 0, most: 4000 }],
  evidence: ['compression-low', 'compression-all-low', 'compression-in-order', 'compression-high'],
  cautions: ['moving', 'high-voltage', 'vapour', 'hot'],
  read: readCompression,
}
