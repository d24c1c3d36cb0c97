import { describe, expect, test } from 'vitest'
import { readSpoken, type SpokenAbout } from '../../src/test-log/spoken.ts'
import { partsOf } from '../../src/cli/commands/log.ts'

const ABOUT: SpokenAbout = {
  now: '2026-03-04T09:30:00-05:00',
  days: { from: '2026-03-04', to: '2026-04-04', only: '2026-03-04', zone: '-05:00' },
  cylinders: 4,
  repaired: false,
}
const said = (line: string, about: Partial<SpokenAbout> = {}) => {
  const spoken = readSpoken(partsOf(line), { ...ABOUT, ...about })
  return spoken.kind === 'rows'
    ? spoken.rows.map((row) =>
        Object.entries(row)
          .filter(([key, value]) => key !== 'step' && !(key === 'at' && value === ABOUT.now))
          .map(([key, value]) => `${key}=${value}`)
          .toSorted()
          .join(' '),
      )
    : spoken
}

// Words of the trade: common practice, no source.
describe.each([
  ['spray "runner 2 joint" response', ['place=runner 2 joint outcome=response']],
  ['Spray runner 2 joint no response', ['place=runner 2 joint outcome=no response']],
  ['spray runner 2 joint propane rpm rose', ['place=runner 2 joint reading=propane outcome=rpm rose']],
  [
    'sprayed runner 2 joint starting fluid response',
    ['place=runner 2 joint reading=starting-fluid outcome=response'],
  ],
  ['trim STFT1 11.7 LTFT1 8', ['reading=STFT1 value=11.7 unit=%', 'reading=LTFT1 value=8 unit=%']],
  ['trim stft1 -5,5% idle', ['condition=idle reading=STFT1 value=-5.5 unit=%']],
  ['trims 2500 rpm STFT1 3.1', ['condition=2500 rpm reading=STFT1 value=3.1 unit=%']],
  [
    'compression 150 145 92 150 psi',
    [150, 145, 92, 150].map((value, i) => `reading=cylinder ${i + 1} value=${value} unit=psi`),
  ],
  ['compression cyl 3 92 PSI', ['reading=cylinder 3 value=92 unit=psi']],
  ['compression #3 6.4bar cranking', ['condition=cranking reading=cylinder 3 value=6.4 unit=bar']],
  [
    'vacuum 16.2 in.hg limits 17 21',
    ['expected_low=17 expected_high=21 reading=manifold value=16.2 unit=inHg'],
  ],
  ['code p0302 P0171', ['reading=P0302', 'reading=P0171']],
  ['codes none', ['reading=none']],
  [
    'fuel pressure key-on 301 idle 298 kPa limits 280..320',
    [
      'expected_low=280 expected_high=320 reading=key-on value=301 unit=kPa',
      'expected_low=280 expected_high=320 reading=idle value=298 unit=kPa',
    ],
  ],
  [
    'gas CO 0.42 CO2 14.1 HC 310',
    ['reading=CO value=0.42 unit=%vol', 'reading=CO2 value=14.1 unit=%vol', 'reading=HC value=310 unit=ppm'],
  ],
  ['smoke throttle body gasket leak', ['place=throttle body gasket outcome=leak']],
  [
    'repair "runner 2 joint" fixed note joint renewed',
    ['place=runner 2 joint outcome=fixed note=joint renewed'],
  ],
  [
    'spray "runner 2 joint" trace spray-1.csv 30-36 response at 9:20',
    [
      'at=2026-03-04T09:20-05:00 place=runner 2 joint trace=traces/spray-1.csv from_s=30 to_s=36 outcome=response',
    ],
  ],
  ['spray B2 at 04.03.2026 9:21 am no response', ['at=2026-03-04T09:21-05:00 place=B2 outcome=no response']],
  [
    'power balance 60 62 15 58 rpm',
    [60, 62, 15, 58].map((v, i) => `reading=cylinder ${i + 1} value=${v} unit=rpm`),
  ],
  ['note oil in cylinder 3 at idle', ['note=oil in cylinder 3 at idle']],
])('%s', (line, rows) => {
  test('is read', () =>
    expect(said(line)).toEqual(
      rows.map((row) =>
        row
          .split(/ (?=\w+=)/)
          .toSorted()
          .join(' '),
      ),
    ))
})

test('what is logged after a repair is after it', () =>
  expect(said('trim STFT1 2', { repaired: true })).toEqual(['reading=STFT1 stage=after unit=% value=2']))

test('a date that could be two is asked about', () =>
  expect(
    said('spray B2 at 4/5/2026 9:00 response', {
      days: { ...ABOUT.days, from: '2026-03-01', to: '2026-06-01' },
    }),
  ).toMatchObject({ kind: 'time-open', meant: ['2026-04-05T09:00', '2026-05-04T09:00'] }))

test('no step: told', () => expect(said('wobble 3')).toMatchObject({ kind: 'no-step' }))
