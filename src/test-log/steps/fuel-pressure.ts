import { sentence } from '../../texts/messages.ts'
import { limit } from '../../limits/limits.ts'
import { toKpa, type PressureUnit } from '../../units/pressure.ts'
import type { Interval } from '../../units/measured.ts'
import type { Fact } from '../fact.ts'
import type { Finding, Says, TestFinding } from '../findings.ts'
import {
  againstExpected,
  measuredRows,
  recorded,
  sideOf,
  worst,
  type StepContext,
  type TestGroup,
} from '../test-group.ts'
import { oneOf, PRESSURE_UNITS, type StepKind } from '../step-kind.ts'
import { withShare } from './intervals.ts'

type Reading = 'key-on' | 'idle' | 'hold'

/**
 * Fuel pressure against the maker's limits, and what is lost on hold.
 *
 * Without the maker's limits a pressure is recorded and not judged; the loss on hold is judged by `fuelHoldLossPct`.
 * Pressure in order does not prove that the injectors pass enough.
 *
 * @source the vehicle maker's limits as logged; shop-practice for the loss on hold
 */
function readFuelPressure(group: TestGroup, { limits }: StepContext): TestFinding {
  const base = recorded(group)
  const share = limit(limits, 'gaugeReadingPct')
  const computed: Record<string, Interval> = {}
  const says: Says[] = []
  const facts: Fact[] = []
  const findings: (Finding | undefined)[] = []
  for (const entry of measuredRows(group)) {
    const reading = entry.reading as Reading
    const kpa = withShare(toKpa(entry.value, entry.unit as PressureUnit), share, 'kPa')
    computed[KEYS[reading]] = kpa
    const finding = againstExpected(entry)
    findings.push(finding)
    const state =
      finding === undefined ? undefined : finding === 'in limits' ? ('in order' as const) : sideOf(entry)
    says.push(
      sentence(state === undefined ? 'tests.fuel-pressure.recorded' : SAYS[state], {
        reading: sentence(READING_WORDS[reading]),
        kpa,
      }),
    )
    if (state) facts.push({ kind: 'fuel-pressure', reading, state, stage: base.stage, sure: true })
  }
  if (facts.some((f) => f.kind === 'fuel-pressure' && f.state === 'in order'))
    says.push(sentence('tests.fuel-pressure.caveat'))
  const held = holdLoss(computed)
  if (held) {
    computed['holdLoss'] = held
    const falls = held.value > limit(limits, 'fuelHoldLossPct')
    findings.push(falls ? 'out of limits' : 'in limits')
    says.push(
      sentence(falls ? 'tests.fuel-pressure.falls' : 'tests.fuel-pressure.holds', {
        loss: held,
        limitPct: limit(limits, 'fuelHoldLossPct'),
      }),
    )
    facts.push({
      kind: 'fuel-pressure',
      reading: 'hold',
      state: falls ? 'falls' : 'in order',
      stage: base.stage,
      sure: true,
    })
  }
  const effect = computed['idleKpa'] ?? computed['keyOnKpa'] ?? computed['holdKpa']
  return { ...base, computed, says, facts, finding: worst(findings), ...(effect ? { effect } : {}) }
}

const SAYS = {
  low: 'tests.fuel-pressure.low',
  high: 'tests.fuel-pressure.high',
  'in order': 'tests.fuel-pressure.in-order',
} as const
const READING_WORDS = {
  'key-on': 'report.reading.key-on',
  idle: 'report.reading.idle',
  hold: 'report.reading.hold',
} as const
const KEYS: Readonly<Record<Reading, string>> = { 'key-on': 'keyOnKpa', idle: 'idleKpa', hold: 'holdKpa' }

/** Loss from key-on (or idle) to hold, % of the first; both gauges' uncertainty in its interval. */
function holdLoss(computed: Readonly<Record<string, Interval>>): Interval<'%'> | undefined {
  const from = computed['keyOnKpa'] ?? computed['idleKpa']
  const held = computed['holdKpa']
  if (!from || !held || from.value <= 0) return undefined
  const loss = (f: number, h: number) => 100 * (1 - h / f)
  return {
    value: loss(from.value, held.value),
    low: loss(from.low, held.high),
    high: loss(from.high, held.low),
    unit: '%',
  }
}

export const fuelPressure: StepKind = {
  title: 'report.step.fuel-pressure',
  needs: { reading: true, value: true },
  readings: oneOf(['key-on', 'idle', 'hold'], () => PRESSURE_UNITS),
  usual: [{ unit: 'kPa', least: 0, most: 40_000 }],
  evidence: ['fuel-pressure-low', 'fuel-pressure-high', 'fuel-pressure-in-order', 'fuel-pressure-falls'],
  cautions: ['vapour', 'hot'],
  read: readFuelPressure,
}
