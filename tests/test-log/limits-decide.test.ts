import { describe, expect, test } from 'vitest'
import type { LimitKey } from '../../src/limits/keys.ts'
import { limit, loadLimits, withValues } from '../../src/limits/limits.ts'
import { readLog } from '../support/test-log.ts'

// Each limit of the log decides what its step finds, at the very figure it is shipped with. @source templates/limits.yaml

const limits = loadLimits()
/** @source NIST SP 811, B.8: inch of mercury, conventional */
const KPA_PER_INHG = 3.386389
const HEAD = 'at,step,place,condition,reading,value,unit,outcome'
const one = (step: string, reading: string, ...[value, unit, condition = '']: [number, string, string?]) =>
  `2026-03-04T10:00:00Z,${step},,${condition},${reading},${value},${unit},`
const cylinders = (step: string, unit: string, values: readonly number[]) =>
  values.map((value, i) => one(step, `cylinder ${i + 1}`, value, unit))
const gas = (CO: number, CO2: number, HC: number, O2: number) => [
  one('gas', 'CO', CO, '%vol', 'idle'),
  one('gas', 'CO2', CO2, '%vol', 'idle'),
  one('gas', 'HC', HC, 'ppm', 'idle'),
  one('gas', 'O2', O2, '%vol', 'idle'),
]
const at2500 = (total: number) => one('trim', 'STFT1', total, '%', '2500 rpm').replace('10:00', '10:05')

/** Rows of a log in which one figure lies `by` beyond the limit (negative: short of it), and by how much at least it tells. */
const DECIDES: Readonly<Partial<Record<LimitKey, { rows: (edge: number) => string[]; by: number }>>> = {
  trimHighPct: { rows: (edge) => [one('trim', 'STFT1', edge, '%', 'idle')], by: 0.5 },
  trimChangePct: { rows: (edge) => [one('trim', 'STFT1', 12 + edge, '%', 'idle'), at2500(12)], by: 0.5 },
  fuelHoldLossPct: {
    rows: (edge) => [
      one('fuel-pressure', 'key-on', 300, 'kPa'),
      one('fuel-pressure', 'hold', 300 * (1 - edge / 100), 'kPa'),
    ],
    by: 2,
  },
  idleVacuumLowKpa: {
    rows: (edge) => [one('vacuum', 'manifold', edge / KPA_PER_INHG, 'inHg', 'idle')],
    by: 4,
  },
  compressionSharePct: {
    rows: (edge) => cylinders('compression', 'kPa', [1200, 1200, 12 * edge, 1200]),
    by: 1,
  },
  resistanceApartRatio: {
    rows: (edge) => cylinders('secondary-resistance', 'kohm', [5, 5, 5 * edge, 5]),
    by: 0.1,
  },
  injectorApartPct: {
    rows: (edge) => cylinders('injector-balance', 'kPa', [100, 100, 100 - edge, 100]),
    by: 1,
  },
  leakDownPct: { rows: (edge) => [one('leak-down', 'cylinder 3', edge, '%')], by: 1 },
  powerDropSharePct: { rows: (edge) => cylinders('power-drop', 'rpm', [100, 100, edge, 100]), by: 1 },
  ethanolReadingPct: { rows: (edge) => [one('fuel-sample', 'ethanol', 1 + edge, '%')], by: 0.5 },
  backPressureIdleKpa: { rows: (edge) => [one('back-pressure', 'idle', edge, 'kPa')], by: 0.5 },
  backPressureRaisedKpa: { rows: (edge) => [one('back-pressure', 'raised', edge, 'kPa')], by: 0.5 },
  coolantApartC: {
    rows: (edge) => [
      one('coolant-sensor', 'coolant', 85 - edge, '°C'),
      one('coolant-sensor', 'reference', 85, '°C'),
    ],
    by: 0.5,
  },
  coolantLowestC: { rows: (edge) => [one('coolant-sensor', 'coolant', edge, '°C')], by: 0.5 },
  coolantHighestC: { rows: (edge) => [one('coolant-sensor', 'coolant', edge, '°C')], by: 0.5 },
}

const found = (rows: readonly string[], under = limits) =>
  readLog([HEAD, ...rows].join('\n'), { limits: under }).tests.map(({ finding, facts }) => ({
    finding,
    facts: facts?.map((fact) => ({ ...fact, sure: true })),
  }))

describe.each(Object.entries(DECIDES) as [LimitKey, NonNullable<(typeof DECIDES)[LimitKey]>][])(
  '%s',
  (key, { rows, by }) => {
    const edge = limit(limits, key)
    const [short, beyond] = [rows(edge - by), rows(edge + by)]

    test('parts what lies beyond it from what does not', () => {
      expect(found(beyond)).not.toEqual(found(short))
    })

    test('is what parts them: set elsewhere, both are alike', () => {
      const moved = withValues(limits, { [key]: edge - 2 * by })
      expect(found(beyond, moved)).toEqual(found(short, moved))
    })
  },
)

/** Doubts of readings: with none, the figure computed from them has other ends. */
const DOUBTS: Readonly<Partial<Record<LimitKey, string[]>>> = {
  trimReadingPct: [one('trim', 'STFT1', 12, '%', 'idle')],
  gaugeReadingPct: [one('vacuum', 'manifold', 60, 'kPa', 'idle')],
  gaugeRepeatPct: cylinders('compression', 'kPa', [1200, 1200, 1000, 1200]),
  airReadingPct: [one('airflow', 'MAF', 4, 'g/s', 'idle')],
  gasReadingPct: gas(0.5, 14, 100, 1),
  gasCoReadingPct: gas(0.5, 14, 100, 1),
  gasCo2ReadingPct: gas(8, 3, 100, 1),
  gasO2ReadingPct: gas(0.5, 14, 100, 1),
  gasHcReadingPpm: gas(0.5, 14, 100, 1),
}

test.each(Object.entries(DOUBTS))('%s widens what is computed', (key, rows) => {
  const computed = (under = limits) =>
    readLog([HEAD, ...rows].join('\n'), { limits: under }).tests.map((t) => t.computed)
  const none = computed(withValues(limits, { [key]: 0 }))
  expect(computed()).not.toEqual(none)
})

/** Limits of the exhaust gas that no single figure holds: with the limit elsewhere the same gas is read otherwise. */
test.each([
  ['lambdaHigh', gas(0.1, 13.5, 60, 1.6), 1.5],
  ['lambdaLow', gas(4.5, 12, 250, 0.2), 0.5],
  ['gasMisfitPct', gas(0.1, 8, 60, 1), 100],
  ['gasLeakO2Pct', gas(0.1, 12.6, 60, 3.4), 20],
  ['gasMisfireHcPpm', gas(0.3, 14, 1200, 2), 1e5],
] as const)('%s decides how the exhaust gas is read', (key, rows, elsewhere) => {
  const read = (under = limits) =>
    JSON.stringify(readLog([HEAD, ...rows].join('\n'), { limits: under }).tests)
  expect(read(withValues(limits, { [key]: elsewhere }))).not.toBe(read())
})
