import { describe, expect, test } from 'vitest'
import { compressionRead, factsOf, gatherFacts } from '../../../src/test-log/facts.ts'
import { readLog } from '../../support/test-log.ts'

const HEAD = 'at,step,stage,condition,reading,value,unit,expected_low,expected_high,place'
const log = (...rows: string[]) =>
  readLog([HEAD, ...rows.map((r) => (r.startsWith('2026') ? r : `2026-03-04T09:00:00Z,${r}`))].join('\n'))
    .tests

describe('trim', () => {
  test('total is the sum; the exact product stands beside it', () => {
    const [trim] = log('trim,,idle,STFT1,8,%', 'trim,,idle,LTFT1,12,%')
    // 2 points to either side, of the sum and of the product
    expect(trim!.effect!.high).toBeCloseTo(22.96, 9)
    expect(trim!.effect).toMatchObject({ value: 20, low: 18, unit: '%' })
    expect(trim!.computed['exactTrimBank1']!.value).toBeCloseTo(20.96, 9) // 1.08 x 1.12 by hand
    expect(trim!.finding).toBe('out of limits')
  })
  // SAE J1979 PIDs 06 to 09, (A - 128) 100/128 %: what a tool prints for a byte is read as it stands, and its step, 0.78 points,
  // lies within what is allowed for a reading.
  test.each([
    [0x80, 0],
    [0xa0, 25],
    [0x78, -6.25],
    [0xff, 99.21875],
    [0x00, -100],
  ])('byte %i of a trim, printed as %d %%, is taken as printed', (byte, printed) => {
    expect(((byte - 128) * 100) / 128).toBe(printed)
    const { low, value, high } = log(`trim,,idle,STFT1,${printed},%`)[0]!.effect!
    expect(value).toBe(printed)
    expect(Math.min(high - value, value - low)).toBeGreaterThan(100 / 128 / 2)
  })
  test('two banks: the one furthest from zero decides', () => {
    const [trim] = log(
      'trim,,idle,STFT1,1,%',
      'trim,,idle,LTFT1,2,%',
      'trim,,idle,STFT2,-4,%',
      'trim,,idle,LTFT2,-9,%',
    )
    expect([trim!.effect!.value, trim!.finding]).toEqual([-13, 'out of limits'])
  })
  test("the maker's limits come before ours", () => {
    expect(log('trim,,idle,STFT1,12,%,-15,15')[0]!.says.map((s) => s.key)).toEqual([
      'tests.trim.maker-in-order',
    ])
    expect(log('trim,,idle,STFT1,8,%,-5,5')[0]!.finding).toBe('out of limits')
    expect(log('trim,,idle,STFT1,12,%,-15,15')[0]!.finding).toBe('in limits')
  })

  const at = (idle: readonly [number, number], fast: readonly [number, number]) =>
    factsOf(
      gatherFacts(
        log(
          ...idle.map((v, i) => `trim,,idle,LTFT${i + 1},${v},%`),
          ...idle.map((_, i) => `trim,,idle,STFT${i + 1},0,%`),
          ...fast.map((v, i) => `trim,,2500 rpm,LTFT${i + 1},${v},%`),
          ...fast.map((_, i) => `trim,,2500 rpm,STFT${i + 1},0,%`),
        ),
      ),
      'trim-pattern',
    ).map(({ pattern, banks, bank }) => [pattern, banks, bank])
  // common practice, no published source
  test.each([
    ['unmetered air', [20, 19], [5, 4], [['falls with speed', 'all', undefined]]],
    [
      'unmetered air of one bank',
      [20, 1],
      [5, 1],
      [
        ['falls with speed', 'one', 1],
        ['in order', 'one', 2],
      ],
    ],
    ['delivery', [2, 3], [15, 16], [['rises with load', 'all', undefined]]],
    ['lean throughout', [16, 15], [14, 15], [['lean throughout', 'all', undefined]]],
    ['rich', [-15, -14], [-13, -12], [['rich', 'all', undefined]]],
    ['in order', [3, -2], [1, 0], [['in order', 'all', undefined]]],
  ] as const)('pattern: %s', (_, idle, fast, expected) => expect(at(idle, fast)).toEqual(expected))
})

describe('gas', () => {
  const gas = (co: number, co2: number, hc: number, o2: number) =>
    log(
      `gas,,idle,CO,${co},%vol`,
      `gas,,idle,CO2,${co2},%vol`,
      `gas,,idle,HC,${hc},ppm`,
      `gas,,idle,O2,${o2},%vol`,
    )[0]!
  test.each([
    ['lean', gas(0.1, 13.5, 50, 2), 'out of limits', 1.09772],
    ['rich', gas(3.5, 12, 300, 0.3), 'out of limits', 0.90046],
    ['in order', gas(0.02, 15.3, 2, 0.14), 'in limits', 1.00577],
  ] as const)('%s (UN Regulation 83 formula)', (side, found, finding, lambda) => {
    expect(found.finding).toBe(finding)
    expect(found.effect!.value).toBeCloseTo(lambda, 4)
    expect(found.effect!.low).toBeLessThan(lambda)
    expect(found.effect!.high).toBeGreaterThan(lambda)
    expect(factsOf(gatherFacts([found]), 'lambda')[0]).toMatchObject({ side })
  })
  test('air let in after the engine is named wherever lean gas carries much oxygen', () => {
    expect(gas(0.1, 13.5, 50, 2).says.map((s) => s.key)).toContain('tests.gas.air-after-engine')
    expect(gas(0.02, 15.3, 2, 0.14).says.map((s) => s.key)).not.toContain('tests.gas.air-after-engine')
  })
  test('CO2 filed in tenths does not belong to the rest: no lambda is judged', () => {
    const found = gas(0.04, 1.53, 2, 0.14)
    expect([found.finding, factsOf(gatherFacts([found]), 'gas-doubt')[0]!.why]).toEqual([
      'unclear',
      'readings do not fit',
    ])
  })
  test('a gas missing: no lambda, and which is missing', () => {
    const [found] = log('gas,,idle,CO,0.1,%vol', 'gas,,idle,CO2,15,%vol', 'gas,,idle,HC,20,ppm')
    expect(found!.effect).toBeUndefined()
    expect(found!.says[0]).toEqual({ key: 'tests.gas.incomplete', args: { missing: 'O2' } })
  })
  test('lambda in order with high trims: the control has made up for it', () => {
    const tests = log(
      'gas,,idle,CO,0.02,%vol',
      'gas,,idle,CO2,15.3,%vol',
      'gas,,idle,HC,2,ppm',
      'gas,,idle,O2,0.14,%vol',
      'trim,,idle,STFT1,2,%',
      'trim,,idle,LTFT1,18,%',
    )
    expect(factsOf(gatherFacts(tests), 'lambda-trims')[0]!.together).toBe('compensated')
  })
})

describe('unmetered air (whole chain computed by hand: 0.7 g/s, 2.9267 mm2, +4.955 % at 2500 rpm and 60 kPa)', () => {
  const tests = log(
    'trim,,idle,STFT1,8,%',
    'trim,,idle,LTFT1,12,%',
    'airflow,,idle,MAF,3.5,g/s',
    'vacuum,,idle,manifold,35,kPa',
    '2026-03-04T09:10:00Z,trim,,2500 rpm,STFT1,1,%',
    '2026-03-04T09:10:00Z,trim,,2500 rpm,LTFT1,4,%',
    '2026-03-04T09:10:00Z,airflow,,2500 rpm,MAF,14,g/s',
    '2026-03-04T09:10:00Z,vacuum,,2500 rpm,manifold,60,kPa',
  )
  const idle = tests.find((t) => t.step === 'airflow')!
  test('air, opening, prediction', () => {
    expect(idle.effect).toMatchObject({ unit: 'g/s' })
    expect(idle.effect!.value).toBeCloseTo(0.7, 9)
    expect(Math.abs(idle.computed['effectiveArea']!.value / 2.9267 - 1)).toBeLessThan(1e-3)
    expect(Math.abs(idle.computed['predictedTrim2500']!.value / 4.955 - 1)).toBeLessThan(1e-3)
  })
  test('the interval of the hole holds the diameters for discharge 0.6 and 0.85', () => {
    const { low, high } = idle.computed['hole']!
    expect(low).toBeLessThan(2.094)
    expect(high).toBeGreaterThan(2.492)
  })
  test('the measured trim fits; a trim that stays high does not', () => {
    expect(factsOf(gatherFacts(tests), 'unmetered-air')[0]!.at2500).toBe('agrees')
    const other = log(
      'trim,,idle,LTFT1,20,%',
      'airflow,,idle,MAF,3.5,g/s',
      'trim,,2500 rpm,LTFT1,21,%',
      'airflow,,2500 rpm,MAF,14,g/s',
    )
    expect(factsOf(gatherFacts(other), 'unmetered-air')[0]!.at2500).toBe('disagrees')
  })
  test('no unmetered air where the trims are in order', () => {
    const found = log('trim,,idle,LTFT1,2,%', 'airflow,,idle,MAF,3.5,g/s').find((t) => t.step === 'airflow')!
    expect([found.effect!.value, found.computed['unmeteredAir']]).toEqual([3.5, undefined])
  })
})

// SAE J1979: PID 10 (256 A + B)/100 g/s (01 5E is 3.50), PID 0B A kPa absolute (23 is 35): taken as the tool prints them
test('air meter and manifold pressure of a scan tool are taken as printed', () => {
  expect(log('airflow,,idle,MAF,3.50,g/s')[0]!.readings[0]!.value).toBe((256 * 0x01 + 0x5e) / 100)
  expect(log('vacuum,,idle,manifold,35,kPa')[0]!.readings[0]!.value).toBe(0x23)
})

describe('pressures', () => {
  test("fuel pressure against the maker's limits in any unit, and the loss on hold", () => {
    const [found] = log('fuel-pressure,,,key-on,55,psi,50,60', 'fuel-pressure,,,hold,40,psi')
    expect(found!.computed['keyOnKpa']!.value).toBeCloseTo(379.212, 2) // 55 x 6.894757
    expect(found!.computed['holdLoss']!.value).toBeCloseTo(27.27, 2)
    expect(found!.finding).toBe('out of limits')
  })
  test('no limits of the maker: recorded, not judged', () =>
    expect(log('fuel-pressure,,,idle,300,kPa')[0]!.finding).toBe('recorded'))
  test.each([
    ['vacuum gauge', 'vacuum,,idle,manifold,19.6,inHg', 34.95, 'in limits'], // 101.325 - 19.6 x 3.386389
    ['weak vacuum', 'vacuum,,idle,manifold,12,inHg', 60.69, 'out of limits'],
    ['negative gauge pressure', 'vacuum,,idle,manifold,-66.4,kPa', 34.93, 'in limits'],
    ['absolute pressure, not judged', 'vacuum,,idle,manifold,35,kPa', 35, 'recorded'],
    ['absolute pressure against limits', 'vacuum,,idle,manifold,50,kPa,25,40', 50, 'out of limits'],
  ])('%s', (_, row, kpa, finding) => {
    const [found] = log(row)
    expect(found!.computed['manifoldKpa']!.value).toBeCloseTo(kpa, 1)
    expect(found!.finding).toBe(finding)
  })
  test('an absolute pressure above its limit is too little vacuum', () => {
    expect(factsOf(gatherFacts(log('vacuum,,idle,manifold,50,kPa,25,40')), 'vacuum')[0]!.state).toBe('low')
    expect(factsOf(gatherFacts(log('vacuum,,idle,manifold,12,inHg,17,21')), 'vacuum')[0]!.state).toBe('low')
  })
})

describe('compression (75 %: common practice, no published source)', () => {
  const cylinders = (...bars: number[]) => bars.map((v, i) => `compression,,,cylinder ${i + 1},${v},bar`)
  test('one below three quarters of the highest', () => {
    const tests = log(...cylinders(12, 11.5, 8.9, 12.1))
    expect([...compressionRead(tests).get('before')!]).toEqual([
      [1, 'in order'],
      [2, 'in order'],
      [3, 'low'],
      [4, 'in order'],
    ])
    expect(tests[0]!.effect!.value).toBeCloseTo(73.55, 2)
    expect(tests[0]!.finding).toBe('out of limits')
  })
  test('exactly three quarters is in order', () =>
    expect(log(...cylinders(12, 9))[0]!.finding).toBe('in limits'))
  test('units may differ from row to row', () => {
    const tests = log(
      'compression,,,cylinder 1,1200,kPa',
      'compression,,,cylinder 2,174,psi',
      'compression,,,cylinder 3,12,bar',
    )
    expect(tests[0]!.finding).toBe('in limits')
  })
  test("all alike and below the maker's limit: all low", () => {
    expect([
      ...compressionRead(log('compression,,,cylinder 1,7,bar,9,13', 'compression,,,cylinder 2,7.1,bar,9,13'))
        .get('before')!
        .values(),
    ]).toEqual(['low', 'low'])
  })
  test('one cylinder alone is not judged', () => {
    const tests = log('compression,,,cylinder 1,7,bar')
    expect([tests[0]!.finding, compressionRead(tests).get('before')!.size]).toEqual(['recorded', 0])
  })
  test('readings that contradict each other: shown, and the cylinder left out', () => {
    const tests = log(...cylinders(12, 8), ...cylinders(12, 12).map((r) => `2026-03-04T10:00:00Z,${r}`))
    expect([...compressionRead(tests).get('before')!]).toEqual([[1, 'in order']])
    expect(factsOf(gatherFacts(tests), 'contradiction')).toMatchObject([{ step: 'compression', place: '2' }])
  })
  describe('in two states', () => {
    const later = (rows: readonly string[]) =>
      rows.map((r) => `2026-03-05T10:00:00Z,${r.replace('compression,', 'compression,after')}`)
    const work = '2026-03-04T12:00:00Z,repair,,,,,,,,cylinder head'
    const of = (tests: ReturnType<typeof log>, cylinder: number) =>
      (['before', 'after'] as const).map((stage) => compressionRead(tests).get(stage)!.get(cylinder))

    test('each is judged by its own readings', () => {
      expect(of(log(...cylinders(12, 8), work, ...later(cylinders(12, 12))), 2)).toEqual(['low', 'in order'])
    })
    test('in order after work says nothing of before it; low after it was low before', () => {
      expect(of(log(work, ...later(cylinders(12, 12))), 2)).toEqual([undefined, 'in order'])
      expect(of(log(work, ...later(cylinders(12, 8))), 2)).toEqual(['low', 'low'])
    })
    test('without work there is one state', () => {
      expect(of(log(...later(cylinders(12, 12))), 2)).toEqual(['in order', 'in order'])
      expect(of(log(...cylinders(12, 8)), 2)).toEqual(['low', 'low'])
    })
  })
})
