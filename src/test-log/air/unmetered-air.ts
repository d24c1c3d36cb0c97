import { sentence } from '../../texts/messages.ts'
import { limit, type Limits } from '../../limits/limits.ts'
import type { Interval } from '../../units/measured.ts'
import type { Addition } from '../addition.ts'
import type { Fact } from '../fact.ts'
import type { Says, TestFinding } from '../findings.ts'
import { trimOf } from '../steps/trim.ts'
import { airFluxGpsPerMm2, criticalRatio, effectiveAreaMm2, holeDiameterMm, isChoked } from './orifice.ts'
import { ATMOSPHERE_KPA } from '../../units/pressure.ts'

/**
 * Unmetered air from the metered air and the total trim of the same stage and condition; the sharp-edged hole that
 * would pass it at the manifold pressure; the trim that hole asks for at 2500 rpm, against the one measured.
 *
 * Holds for engines that measure the mass of air (where pressure and speed stand for the air, a leak does not move the
 * trims this way), and only where the trim comes from air and not from fuel. The hole is that of all leaks together.
 *
 * @source orifice.ts; discharge of a sharp edge 0.6 to 0.85 (Weisbach in Encyclopaedia Britannica, 11th ed., Hydraulics;
 *         Perry 1949), hence about 15 % either way on the diameter
 */
export function unmeteredAir(tests: readonly TestFinding[], limits: Limits): Addition[] {
  return tests.flatMap((test, index) => {
    if (test.step !== 'airflow' || test.condition !== 'idle') return []
    const air = test.computed['meteredAir']
    const trim = meanTrim(tests, { stage: test.stage, condition: 'idle' })
    if (!air || !trim) return []
    return trim.value > limit(limits, 'trimHighPct')
      ? [{ index, ...leakOf({ test, air, trim, tests }, limits) }]
      : [{ index, says: [sentence('tests.air.none', { trim })] }]
  })
}

interface Leak {
  test: TestFinding
  air: Interval
  trim: Interval
  tests: readonly TestFinding[]
}

function leakOf({ test, air, trim, tests }: Leak, limits: Limits): Omit<Addition, 'index'> {
  const manifold = manifoldKpa(tests, { stage: test.stage, condition: 'idle' })
  const chokedKpa = criticalRatio() * ATMOSPHERE_KPA
  const unmetered: Interval<'g/s'> = {
    value: (air.value * trim.value) / 100,
    low: (air.low * Math.max(0, trim.low)) / 100,
    high: (air.high * trim.high) / 100,
    unit: 'g/s',
  }
  const areaMm2 = effectiveAreaMm2(unmetered.value, manifold?.value ?? chokedKpa)
  const says: Says[] = [sentence('tests.air.unmetered', { unmetered, trim })]
  const computed: Record<string, Interval> = { unmeteredAir: unmetered }
  if (areaMm2 === undefined)
    return { says: [...says, sentence('tests.air.no-pressure-drop')], computed, effect: unmetered }
  const hole = holeOf(areaMm2, limits)
  computed['hole'] = hole
  computed['effectiveArea'] = {
    value: areaMm2,
    low: areaMm2 * (unmetered.low / unmetered.value),
    high: areaMm2 * (unmetered.high / unmetered.value),
    unit: 'mm2',
  }
  says.push(
    manifold
      ? sentence(isChoked(manifold.value) ? 'tests.air.hole-choked' : 'tests.air.hole', { hole, manifold })
      : sentence('tests.air.hole-assumed', { hole }),
  )
  const at2500 = predict({ areaMm2, tests, stage: test.stage, unmetered }, limits)
  if (at2500) {
    computed['predictedTrim2500'] = at2500.predicted
    says.push(at2500.says)
  }
  const fact: Fact = {
    kind: 'unmetered-air',
    stage: test.stage,
    sure: manifold !== undefined,
    airGps: unmetered.value,
    holeMm: hole.value,
    at2500: at2500?.verdict ?? 'not checked',
  }
  return { says, computed, effect: unmetered, facts: [fact] }
}

/** Diameter with the uncertainty of the discharge coefficient, the largest part by far. */
function holeOf(areaMm2: number, limits: Limits): Interval<'mm'> {
  const value = holeDiameterMm(areaMm2, limit(limits, 'holeDischarge'))
  const share = limit(limits, 'holeDiameterPct') / 100
  return { value, low: value * (1 - share), high: value * (1 + share), unit: 'mm' }
}

interface At2500 {
  predicted: Interval<'%'>
  verdict: 'agrees' | 'disagrees' | 'not checked'
  says: Says
}

function predict(
  it: { areaMm2: number; tests: readonly TestFinding[]; stage: 'before' | 'after'; unmetered: Interval },
  limits: Limits,
): At2500 | undefined {
  const { areaMm2, tests, stage, unmetered } = it
  const at = { stage, condition: '2500 rpm' }
  const air = last(tests, at, 'airflow')?.computed['meteredAir']
  if (!air) return undefined
  const manifold = manifoldKpa(tests, at)
  const leakGps = areaMm2 * airFluxGpsPerMm2(manifold?.value ?? criticalRatio() * ATMOSPHERE_KPA)
  const value = (100 * leakGps) / air.value
  const share = Math.max(unmetered.high / unmetered.value - 1, 1 - unmetered.low / unmetered.value)
  const half = value * Math.hypot(share, air.high / air.value - 1)
  const predicted: Interval<'%'> = { value, low: value - half, high: value + half, unit: '%' }
  const measured = meanTrim(tests, at)
  if (!measured)
    return { predicted, verdict: 'not checked', says: sentence('tests.air.predicts', { predicted }) }
  const margin = limit(limits, 'trimChangePct') / 2
  const agrees = measured.low <= predicted.high + margin && measured.high >= predicted.low - margin
  return {
    predicted,
    verdict: agrees ? 'agrees' : 'disagrees',
    says: sentence(agrees ? 'tests.air.agrees' : 'tests.air.disagrees', { predicted, measured }),
  }
}

interface At {
  stage: 'before' | 'after'
  condition: string
}

const same = (wanted: string, condition: string | undefined): boolean =>
  condition?.replace(/ /g, '') === wanted.replace(/ /g, '')

const last = (tests: readonly TestFinding[], at: At, step: TestFinding['step']): TestFinding | undefined =>
  tests.filter((t) => t.step === step && t.stage === at.stage && same(at.condition, t.condition)).at(-1)

/** Mean of the banks' totals in the last trim test of the condition: both banks breathe through one meter. */
function meanTrim(tests: readonly TestFinding[], at: At): Interval<'%'> | undefined {
  const test = last(tests, at, 'trim')
  const totals = test ? trimOf(test).map((t) => t.total) : []
  if (totals.length === 0) return undefined
  const mean = (pick: (i: Interval) => number) => totals.reduce((sum, t) => sum + pick(t), 0) / totals.length
  return { value: mean((t) => t.value), low: mean((t) => t.low), high: mean((t) => t.high), unit: '%' }
}

const manifoldKpa = (tests: readonly TestFinding[], at: At): Interval | undefined =>
  last(tests, at, 'vacuum')?.computed['manifoldKpa']
