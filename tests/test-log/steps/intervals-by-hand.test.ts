import { describe, expect, test } from 'vitest'
import { readLog } from '../../support/test-log.ts'

const HEAD = 'at,step,stage,condition,reading,value,unit'
const read = (...rows: string[]) =>
  readLog([HEAD, ...rows.map((row) => `2026-03-04T09:00:00Z,${row}`)].join('\n')).tests
const half = ({ low, high }: { low: number; high: number }): number => (high - low) / 2

describe('uncertainties of the log, worked out apart from this program', () => {
  // Central differences of the printed formula (UN Regulation 83, 5.3.7.3) in Python; errors of the analyser as halves
  // of rectangles (JCGM 100:2008, 4.3.7), joined by root sum of squares (5.1.2), k = 2. The largest part alone would
  // give 0.00532.
  test('lambda and the misfit of carbon', () => {
    const [gas] = read(
      'gas,,idle,CO,0.5,%vol',
      'gas,,idle,CO2,14.7,%vol',
      'gas,,idle,HC,100,ppm',
      'gas,,idle,O2,0.7,%vol',
    )
    const { lambda, carbonMisfit } = gas!.computed
    expect(lambda!.value).toBeCloseTo(1.01389, 5)
    expect(Math.abs(half(lambda!) / 0.0057854 - 1)).toBeLessThan(0.01)
    expect(Math.abs(half(carbonMisfit!) / 5.4249 - 1)).toBeLessThan(0.02)
  })

  // 3.5 g/s within 3 %; trims of 8 and 12 % are 20 % by their sum and 20.96 % by their product, each within 2 points, and
  // the total holds both: 3.395 x 0.18 and 3.605 x 0.2296 by hand.
  test('unmetered air is as wide as its two figures make it; the hole as its discharge', () => {
    const tests = read(
      'trim,,idle,STFT1,8,%',
      'trim,,idle,LTFT1,12,%',
      'vacuum,,idle,manifold,-66,kPa',
      'airflow,,idle,MAF,3.5,g/s',
    )
    const { unmeteredAir, hole } = tests.find((t) => t.step === 'airflow')!.computed
    expect(unmeteredAir).toMatchObject({ value: expect.closeTo(0.7, 9) as number })
    expect(unmeteredAir!.low).toBeCloseTo(0.6111, 6)
    expect(unmeteredAir!.high).toBeCloseTo(0.827708, 6)
    expect(half(hole!) / hole!.value).toBeCloseTo(0.15, 9)
  })

  // 300 kPa and 240 kPa, each within 2 %: 20 % lost, between 1 - 244.8/294 and 1 - 235.2/306.
  test('loss on hold is as wide as two gauge readings make it', () => {
    const [fuel] = read('fuel-pressure,,key-on,key-on,300,kPa', 'fuel-pressure,,key-on,hold,240,kPa')
    const loss = fuel!.computed['holdLoss']!
    expect(loss.value).toBeCloseTo(20, 9)
    expect(loss.low).toBeCloseTo(16.7347, 3)
    expect(loss.high).toBeCloseTo(23.1373, 3)
  })

  // 17 inHg are 57.57 kPa (1 inHg = 3.38639 kPa); the limit stands at 57, common practice, no source.
  test('idle vacuum: the limit is at 57 kPa', () => {
    const at = (kpa: number) =>
      read('vacuum,,idle,barometer,101.325,kPa', `vacuum,,idle,manifold,${-kpa},kPa`)[0]!.finding
    expect(at(57.2)).toBe('in limits')
    expect(at(56.8)).toBe('out of limits')
  })
})
