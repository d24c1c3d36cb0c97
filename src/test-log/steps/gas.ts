import { sentence } from '../../texts/messages.ts'
import type { LimitKey } from '../../limits/keys.ts'
import { limit, type Limits } from '../../limits/limits.ts'
import { toPercentVol, toPpm, type ConcentrationUnit } from '../../units/concentration.ts'
import type { Interval } from '../../units/measured.ts'
import type { Fact } from '../fact.ts'
import type { Says, TestFinding } from '../findings.ts'
import { FUEL_RATIOS } from '../gas/fuels.ts'
import { expectedCarbonPct, lambdaOf, lambdaUncertainty, type ExhaustGas } from '../gas/lambda.ts'
import { againstExpected, recorded, worst, type StepContext, type TestGroup } from '../test-group.ts'
import { oneOf, type StepKind } from '../step-kind.ts'
import { withHalf } from './intervals.ts'

/** Half width of a rectangular distribution in standard uncertainties. @source JCGM 100:2008, 4.3.7 */
const RECTANGULAR = Math.sqrt(3)
const COVERAGE = 2
/** Air holds this much oxygen; more cannot be. */
const OXYGEN_OF_AIR_PCT = 21
const CARBON_PER_HC = 6
const PPM_PER_PCT = 10000

/**
 * Lambda of the exhaust gas for the job's fuel, with its uncertainty from the analyser's permitted errors, and whether
 * the readings belong together.
 *
 * What it cannot tell: air let into the exhaust or the probe from a lean mixture; which cylinder; and a leak that the
 * fuel control has made up for (lambda is then 1 and the trims show it).
 *
 * @source Brettschneider 1979, UN Regulation 83; window of the UK's statutory inspection; errors of the analyser: this project's judgement
 */
function readGas(group: TestGroup, { job, limits }: StepContext): TestFinding {
  const base = recorded(group)
  const own = worst(group.map(againstExpected))
  const gas = gasOf(group)
  if ('missing' in gas)
    return { ...base, finding: own, says: [sentence('tests.gas.incomplete', { missing: gas.missing })] }
  const fuel = FUEL_RATIOS[job.engine.fuel]
  const lambda = lambdaOf(gas, fuel)
  if (lambda === undefined) return { ...base, finding: own, says: [sentence('tests.gas.no-combustion')] }
  const interval = withHalf(
    lambda,
    COVERAGE * lambdaUncertainty(gas, fuel, analyserUncertainty(gas, limits))!,
    'lambda',
  )
  const measured = carbonPct(gas)
  const expected = expectedCarbonPct(gas, fuel)!
  const misfit = (measured / expected - 1) * 100
  const fits = Math.abs(misfit) <= limit(limits, 'gasMisfitPct') && gas.o2Pct <= OXYGEN_OF_AIR_PCT
  const computed: Record<string, Interval> = {
    lambda: interval,
    carbonMisfit: withHalf(misfit, misfitHalfPct(gas, { fuel, limits, misfit }), '%'),
  }
  if (!fits) {
    const fact: Fact = { kind: 'gas-doubt', why: 'readings do not fit', stage: base.stage, sure: true }
    return {
      ...base,
      computed,
      finding: 'unclear',
      effect: interval,
      says: [sentence('tests.gas.misfit', { lambda: interval, carbonPct: measured, expectedPct: expected })],
      facts: [fact],
    }
  }
  const judged = judge(interval, { gas, limits, base })
  return { ...base, computed, effect: interval, ...judged, finding: worst([own, judged.finding]) }
}

const SURE = { lean: 'tests.gas.lean', rich: 'tests.gas.rich', 'in order': 'tests.gas.in-order' } as const
const NEAR = {
  lean: 'tests.gas.lean-near',
  rich: 'tests.gas.rich-near',
  'in order': 'tests.gas.in-order-near',
} as const

function judge(lambda: Interval<'lambda'>, it: { gas: ExhaustGas; limits: Limits; base: TestFinding }) {
  const { gas, limits, base } = it
  const low = limit(limits, 'lambdaLow')
  const high = limit(limits, 'lambdaHigh')
  const side =
    lambda.value > high ? ('lean' as const) : lambda.value < low ? ('rich' as const) : ('in order' as const)
  const sure =
    side === 'lean'
      ? lambda.low > high
      : side === 'rich'
        ? lambda.high < low
        : lambda.low >= low && lambda.high <= high
  const says: Says[] = [sentence((sure ? SURE : NEAR)[side], { lambda, low, high })]
  const facts: Fact[] = [{ kind: 'lambda', side, condition: base.condition, stage: base.stage, sure }]
  if (side === 'lean' && gas.o2Pct > limit(limits, 'gasLeakO2Pct')) {
    says.push(sentence('tests.gas.air-after-engine', { o2Pct: gas.o2Pct }))
    facts.push({ kind: 'gas-doubt', why: 'air after the engine', stage: base.stage, sure: false })
  }
  if (gas.hcPpm > limit(limits, 'gasMisfireHcPpm'))
    says.push(sentence('tests.gas.unburnt', { hcPpm: gas.hcPpm }))
  return { says, facts, finding: side === 'in order' ? ('in limits' as const) : ('out of limits' as const) }
}

/** Half width (95 %) of the misfit: each reading moved by its own uncertainty, the moves added in squares. @source JCGM 100:2008, 5.1.3 */
function misfitHalfPct(
  gas: ExhaustGas,
  it: { fuel: (typeof FUEL_RATIOS)[keyof typeof FUEL_RATIOS]; limits: Limits; misfit: number },
): number {
  const u = analyserUncertainty(gas, it.limits)
  const moved = (Object.keys(u) as (keyof ExhaustGas)[]).map((name) => {
    const other = { ...gas, [name]: gas[name] + u[name] }
    const expected = expectedCarbonPct(other, it.fuel)
    return expected === undefined ? 0 : (carbonPct(other) / expected - 1) * 100 - it.misfit
  })
  return COVERAGE * Math.hypot(...moved)
}

const carbonPct = (gas: ExhaustGas): number =>
  gas.co2Pct + gas.coPct + (CARBON_PER_HC * gas.hcPpm) / PPM_PER_PCT

/** The last reading of each gas; or which are missing. */
function gasOf(group: TestGroup): ExhaustGas | { missing: string } {
  const of = (reading: string) =>
    group.filter((e) => e.reading === reading && e.value !== undefined && e.unit !== undefined).at(-1)
  const need = { CO: of('CO'), CO2: of('CO2'), HC: of('HC'), O2: of('O2') }
  const missing = Object.entries(need)
    .filter(([, e]) => e === undefined)
    .map(([name]) => name)
  if (missing.length) return { missing: missing.join(', ') }
  const pct = (e: (typeof need)['CO']) => toPercentVol(e!.value!, e!.unit as ConcentrationUnit)
  return {
    coPct: pct(need.CO),
    co2Pct: pct(need.CO2),
    o2Pct: pct(need.O2),
    hcPpm: toPpm(need.HC!.value!, need.HC!.unit as ConcentrationUnit),
  }
}

/** Permitted error of each reading, the larger of absolute and relative, as a standard uncertainty. */
function analyserUncertainty(gas: ExhaustGas, limits: Limits): ExhaustGas {
  const share = limit(limits, 'gasReadingPct') / 100
  const u = (value: number, least: LimitKey) => Math.max(limit(limits, least), share * value) / RECTANGULAR
  return {
    coPct: u(gas.coPct, 'gasCoReadingPct'),
    co2Pct: u(gas.co2Pct, 'gasCo2ReadingPct'),
    o2Pct: u(gas.o2Pct, 'gasO2ReadingPct'),
    hcPpm: u(gas.hcPpm, 'gasHcReadingPpm'),
  }
}

export const gas: StepKind = {
  title: 'report.step.gas',
  needs: { reading: true, value: true },
  readings: oneOf(['CO', 'CO2', 'HC', 'O2', 'NOx'], (reading) =>
    reading === 'HC' || reading === 'NOx' ? ['ppm', '%vol'] : ['%vol', '%', 'ppm'],
  ),
  neverNegative: true,
  usual: [
    { reading: 'CO', unit: '%vol', least: 0, most: 15 },
    { reading: 'CO2', unit: '%vol', least: 0, most: 20 },
    { reading: 'O2', unit: '%vol', least: 0, most: 21 },
    { reading: 'HC', unit: 'ppm', least: 0, most: 30_000 },
    { reading: 'HC', unit: '%vol', least: 0, most: 3 },
    { reading: 'NOx', unit: 'ppm', least: 0, most: 10_000 },
  ],
  evidence: [
    'lambda-lean',
    'lambda-rich',
    'lambda-in-order',
    'gas-air-after-engine',
    'gas-both-lean',
    'gas-compensated',
    'gas-lean-only',
    'gas-opposed',
  ],
  cautions: ['exhaust', 'hot'],
  read: readGas,
}
