import { expect, test } from 'vitest'
import { findNumberStyle } from '../../src/capture/decimal-sign.ts'
import { readLog } from '../support/test-log.ts'

const inOneColumn = (...cells: string[]) => cells.map((cell) => ({ cell, column: 0 }))

const HEAD = 'at,step,place,stage,condition,reading,value,unit,expected_low,expected_high'
const AT = '2026-03-04T09:00:00Z'
const log = (...rows: readonly string[]) => readLog([HEAD, ...rows.map((r) => `${AT},${r}`)].join('\n'))

test('a trim of 117 % is shown and asked about, and nothing is read from it', () => {
  const { tests, problems } = log('trim,,,idle,STFT1,117,%', 'trim,,,idle,LTFT1,2,%')
  expect(problems.map((p) => p.code)).toEqual(['unusual-value'])
  expect(tests[0]!.readings.map((r) => r.value)).toEqual([117, 2])
  expect(tests[0]!.computed['totalTrimBank1']!.value).toBe(2)
})

test('a trim of 80 % is asked about and used: the control unit can state it', () => {
  const { tests, problems } = log('trim,,,idle,STFT1,80,%', 'trim,,,idle,LTFT1,0,%')
  expect(problems.map((p) => p.code)).toEqual(['unusual-value'])
  expect(tests[0]!.computed['totalTrimBank1']!.value).toBe(80)
})

test('a barometer of 30.1 inHg is no impossible vacuum', () => {
  expect(log('vacuum,,,idle,barometer,30.1,inHg').problems).toEqual([])
})

test('a compression of 4500 kPa says nothing of any cylinder', () => {
  const { tests } = log(
    'compression,,,,cylinder 1,1200,kPa',
    'compression,,,,cylinder 2,1180,kPa',
    'compression,,,,cylinder 3,4500,kPa',
  )
  expect(tests[0]!.facts!.map((f) => (f.kind === 'compression' ? [f.cylinder, f.state] : []))).toEqual([
    [1, 'in order'],
    [2, 'in order'],
  ])
})

// At 1600 m the air has 83.5 kPa (ISO 2533, from memory): a sound engine's 15.5 inHg there are 52 kPa.
test('a vacuum of 15.5 inHg is low beside a barometer at sea level, in order at 1600 m, and open without one', () => {
  const at = (...barometer: readonly string[]) =>
    log('vacuum,,,idle,manifold,15.5,inHg', ...barometer).tests[0]!.facts!.map((f) =>
      f.kind === 'vacuum' ? f.state : f.kind,
    )
  expect(at('vacuum,,,idle,barometer,101.3,kPa')).toEqual(['low'])
  expect(at('vacuum,,,idle,barometer,83.5,kPa')).toEqual(['in order'])
  expect(at()).toEqual([])
  expect(log('vacuum,,,idle,manifold,10,inHg').tests[0]!.facts).toMatchObject([
    { kind: 'vacuum', state: 'low' },
  ])
  expect(log('vacuum,,,idle,manifold,19,inHg').tests[0]!.facts).toMatchObject([
    { kind: 'vacuum', state: 'in order' },
  ])
})

test('the lowest against the highest, and the misfit of gases, carry their width', () => {
  const { tests } = log('compression,,,,cylinder 1,1200,kPa', 'compression,,,,cylinder 2,1000,kPa')
  const ratio = tests[0]!.computed['lowestToHighest']!
  expect(ratio.high - ratio.low).toBeGreaterThan(1)
  const gas = log(
    'gas,,,idle,CO,0.5,%vol',
    'gas,,,idle,CO2,14.6,%vol',
    'gas,,,idle,HC,100,ppm',
    'gas,,,idle,O2,0.8,%vol',
  )
  const misfit = gas.tests[0]!.computed['carbonMisfit']!
  expect(misfit.high - misfit.low).toBeGreaterThan(0.5)
})

test('figures such as 1.026 beside hundreds without a sign are asked about in any kind of file', () => {
  for (const separator of [',', ';', '\t', 'none'] as const) {
    const found = findNumberStyle(inOneColumn('1.026', '995', '1.011'), separator as '\t')
    expect(found.ok, separator).toBe(false)
  }
  expect(findNumberStyle(inOneColumn('1.026', '1.011'), '\t').ok).toBe(true)
  expect(findNumberStyle(inOneColumn('0.100', '995', '1.026'), '\t')).toMatchObject({
    ok: true,
    style: { decimal: '.' },
  })
})

test('a total trim’s interval holds the exact product of its parts', () => {
  const { tests } = log('trim,,,idle,STFT1,20,%', 'trim,,,idle,LTFT1,20,%')
  const { totalTrimBank1: total, exactTrimBank1: exact } = tests[0]!.computed
  expect([total!.value, exact!.value]).toEqual([40, expect.closeTo(44, 9)])
  expect(total!.high).toBeGreaterThanOrEqual(exact!.high)
})
