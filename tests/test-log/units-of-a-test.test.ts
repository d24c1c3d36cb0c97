import { expect, test } from 'vitest'
import { readLog } from '../support/test-log.ts'

const HEAD = 'at,step,condition,reading,value,unit'
const codes = (...rows: string[]) =>
  readLog([HEAD, ...rows.map((r) => `2026-03-04T09:00:00Z,${r}`)].join('\n')).problems.map((p) => [
    p.code,
    p.line,
  ])

test('12 psi beside 12 bar in one compression test', () => {
  expect(
    codes(
      'compression,,cylinder 1,12,bar',
      'compression,,cylinder 2,12,psi',
      'compression,,cylinder 3,12,bar',
    ),
  ).toEqual([['units-mixed', 3]])
})

test('150 kPa on every cylinder is 150 psi written down wrong; one dead cylinder, or a worn engine, is not', () => {
  const four = (unit: string, ...values: number[]) =>
    codes(...values.map((v, i) => `compression,,cylinder ${i + 1},${v},${unit}`))
  expect(four('kPa', 145, 150, 92, 148)).toEqual([['unit-doubtful', 3]])
  expect(four('psi', 12, 11.8)).toEqual([['unit-doubtful', 2]])
  expect(four('psi', 150, 145, 92, 150)).toEqual([])
  expect(four('kPa', 420, 410, 60, 415)).toEqual([])
  expect(codes('compression,,cylinder 3,0,kPa')).toEqual([])
})

test('a vacuum in inHg beside a barometer in kPa is usual practice', () => {
  expect(codes('vacuum,idle,manifold,18,inHg', 'vacuum,idle,barometer,98,kPa')).toEqual([])
})
