import { describe, expect, test } from 'vitest'
import { readLog as readLogText } from '../../src/job/read-log.ts'
import { readEntries } from '../../src/test-log/log-entry.ts'
import { readLog, speedRecording } from '../support/test-log.ts'

const HEAD =
  'at,step,place,stage,condition,reading,value,unit,expected_low,expected_high,trace,from_s,to_s,outcome,note,extra'
const AT = '2026-03-04T09:00:00Z'
const codes = (
  row: string,
  recordings = [speedRecording('traces/s.csv', new Float64Array(600).fill(750), 0.1)],
) =>
  readLog(`${HEAD}\n${row}`, { recordings }).problems.map(
    (p) =>
      `${p.code}@${p.line}:${'column' in p.args ? p.args.column : 'found' in p.args ? p.args.found : ''}`,
  )

test.each([
  ['value missing', `${AT},trim,,,idle,STFT1,,%`, ['missing-cell@2:value']],
  ['unit missing', `${AT},trim,,,idle,STFT1,3`, ['missing-cell@2:unit']],
  ['reading missing', `${AT},gas,,,idle,,3,%vol`, ['missing-cell@2:reading']],
  ['code missing', `${AT},code`, ['missing-cell@2:reading']],
  ['place missing', `${AT},spray`, ['missing-cell@2:place']],
  ['value not a number', `${AT},trim,,,idle,STFT1,3x,%`, ['wrong-cell@2:value']],
  ['value that a machine would take', `${AT},trim,,,idle,STFT1,0x10,%`, ['wrong-cell@2:value']],
  ['infinite value', `${AT},trim,,,idle,STFT1,1e999,%`, ['wrong-cell@2:value']],
  ['unknown reading', `${AT},trim,,,idle,STFT3,3,%`, ['unknown-reading@2:STFT3']],
  ['wrong unit', `${AT},airflow,,,idle,MAF,3,kPa`, ['unknown-word@2:kPa']],
  [
    'limits the wrong way round',
    `${AT},fuel-pressure,,,,idle,300,kPa,400,200`,
    ['wrong-cell@2:expected_low'],
  ],
  ['negative gas', `${AT},gas,,,idle,CO,-1,%vol`, ['wrong-cell@2:value']],
  ['unknown stage', `${AT},note,,later`, ['unknown-word@2:later']],
  ['no trouble code', `${AT},code,,,,P99`, ['wrong-cell@2:reading']],
  ['unknown trace', `${AT},spray,joint,,,propane,,,,,traces/x.csv,1,2`, ['unknown-trace@2:traces/x.csv']],
  [
    'spray without its times',
    `${AT},spray,joint,,,propane,,,,,traces/s.csv`,
    ['missing-cell@2:from_s', 'missing-cell@2:to_s'],
  ],
  [
    'spray that ends before it starts',
    `${AT},spray,joint,,,propane,,,,,traces/s.csv,20,19`,
    ['wrong-cell@2:to_s'],
  ],
  [
    'spray outside the trace',
    `${AT},spray,joint,,,propane,,,,,traces/s.csv,70,72`,
    ['spray-outside-trace@2:'],
  ],
  ['unknown step', `${AT},sprai,joint`, ['unknown-step@2:sprai']],
  ['no time', `,note`, ['missing-cell@2:at']],
  ['no such day', `2026-02-30T09:00:00Z,note`, ['wrong-cell@2:at']],
])('%s', (_, row, expected) => expect(codes(row)).toEqual(expected))

describe('decimal commas', () => {
  /** Rows as a spreadsheet writes them that parts cells by semicolons. */
  const log = (...rows: readonly string[]) => {
    const text = [HEAD.replaceAll(',', ';'), ...rows.map((row) => `${AT};${row}`)].join('\n')
    return readEntries(readLogText('test-log.csv', text, undefined).rows)
  }
  const values = (...rows: readonly string[]) =>
    log(...rows).map(({ entry, problems }) => problems.map(({ code }) => code)[0] ?? entry!.value)

  test('of a spreadsheet that writes them everywhere are read, limits and times as well', () => {
    const [row] = log('spray;joint;;;propane;;;2,8;3,25;traces/s.csv;10,5;,75')
    expect(row).toMatchObject({
      problems: [],
      entry: { expectedLow: 2.8, expectedHigh: 3.25, fromS: 10.5, toS: 0.75 },
    })
    expect(values('trim;;;idle;STFT1;-3,9;%', 'trim;;;idle;LTFT1;12;%', 'gas;;;;CO;0,125;%vol')).toEqual([
      -3.9, 12, 0.125,
    ])
  })
  test('that may group thousands are refused', () =>
    expect(values('compression;;;;cylinder 1;1,230;kPa', 'compression;;;;cylinder 2;12,5;bar')).toEqual([
      'wrong-cell',
      12.5,
    ]))
  test('beside decimal points are refused: one of the two may group thousands', () =>
    expect(values('compression;;;;cylinder 1;1.230;kPa', 'compression;;;;cylinder 2;12,5;bar')).toEqual([
      1.23,
      'wrong-cell',
    ]))
  test('and a true minus sign', () => expect(values('trim;;;idle;STFT1;\u22123,9;%')).toEqual([-3.9]))
})

describe('a reading twice in one test', () => {
  test('with two figures is refused, whatever its line or unit', () => {
    expect(
      codes(`${AT},trim,,,idle,STFT1,11.7,%\n${AT},trim,,,idle,LTFT1,2,%\n${AT},trim,,,idle,STFT1,-11.7,%`),
    ).toEqual(['reading-twice@4:-11.7 %'])
    expect(codes(`${AT},compression,,,,cylinder 3,7,bar\n${AT},compression,,,,cylinder 3,7,psi`)).toEqual([
      'reading-twice@3:7 psi',
    ])
  })
  test('with one figure, or at another time, condition or stage, is none', () => {
    const again = [
      `${AT},trim,,,idle,STFT1,11.7,%`,
      `${AT},trim,,,2500 rpm,STFT1,2,%`,
      `${AT},trim,,after,idle,STFT1,3,%`,
      '2026-03-04T09:05:00Z,trim,,,idle,STFT1,4,%',
    ]
    expect(codes([`${AT},trim,,,idle,STFT1,11.7,%`, ...again].join('\n'))).toEqual([])
  })
  test('as trouble codes: two of them are two', () =>
    expect(codes(`${AT},code,,,,P0171\n${AT},code,,,,P0174`)).toEqual([]))
})

test('the nearest reading is suggested', () => {
  const { problems } = readLog(`${HEAD}\n${AT},gas,,,idle,C02,14,%vol`)
  expect(problems[0]!.args).toMatchObject({ nearest: 'CO2', step: 'gas' })
})

test('all problems of all rows in one pass, and no test read', () => {
  const { tests, problems } = readLog(
    `${HEAD}\n${AT},trim,,,idle,STFT1,x,%\n${AT},trim,,,idle,LTFT9,1,%\n${AT},note`,
  )
  expect([tests.length, problems.map((p) => p.line)]).toEqual([0, [2, 3]])
})

test('columns that are not known are kept with the note', () => {
  const { tests } = readLog(`${HEAD}\n${AT},note,,,,,,,,,,,,,looked at it,torn`)
  expect(tests[0]!.note).toBe('looked at it; extra: torn')
})

test('rows of one time and step make one test; the order of rows does not matter, times do', () => {
  const rows = [
    `${AT},trim,,,idle,STFT1,8,%`,
    `${AT},trim,,,idle,LTFT1,12,%`,
    '2026-03-04T08:30:00Z,note',
    '2026-03-04T10:15:00+02:00,code,,,,P0171',
  ]
  const read = (order: readonly string[]) =>
    readLog([HEAD, ...order].join('\n')).tests.map((t) => [t.step, t.effect?.value])
  expect(read(rows)).toEqual([
    ['code', undefined],
    ['note', undefined],
    ['trim', 20],
  ])
  expect(read([...rows].reverse())).toEqual(read(rows))
})
