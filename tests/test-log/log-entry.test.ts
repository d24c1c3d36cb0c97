import { expect, test } from 'vitest'
import { readLog, speedRecording } from '../support/test-log.ts'

const HEAD = 'at,step,place,stage,condition,reading,value,unit,expected_low,expected_high,trace,from_s,to_s,outcome,note,extra'
const AT = '2026-03-04T09:00:00Z'
const codes = (row: string, recordings = [speedRecording('traces/s.csv', new Float64Array(600).fill(750), 0.1)]) =>
  readLog(`${HEAD}\n${row}`, { recordings }).problems.map((p) => `${p.code}@${p.line}:${'column' in p.args ? p.args.column : 'found' in p.args ? p.args.found : ''}`)

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
  ['wrong unit', `${AT},airflow,,,idle,MAF,3,kPa`, ['wrong-cell@2:unit']],
  ['limits the wrong way round', `${AT},fuel-pressure,,,,idle,300,kPa,400,200`, ['wrong-cell@2:expected_low']],
  ['negative gas', `${AT},gas,,,idle,CO,-1,%vol`, ['wrong-cell@2:value']],
  ['unknown stage', `${AT},note,,later`, ['wrong-cell@2:stage']],
  ['no trouble code', `${AT},code,,,,P99`, ['wrong-cell@2:reading']],
  ['unknown trace', `${AT},spray,joint,,,propane,,,,,traces/x.csv,1,2`, ['unknown-trace@2:traces/x.csv']],
  ['spray without its times', `${AT},spray,joint,,,propane,,,,,traces/s.csv`, ['missing-cell@2:from_s', 'missing-cell@2:to_s']],
  ['spray that ends before it starts', `${AT},spray,joint,,,propane,,,,,traces/s.csv,20,19`, ['wrong-cell@2:to_s']],
  ['spray outside the trace', `${AT},spray,joint,,,propane,,,,,traces/s.csv,70,72`, ['spray-outside-trace@2:']],
  ['unknown step', `${AT},sprai,joint`, ['unknown-step@2:sprai']],
  ['no time', `,note`, ['missing-cell@2:at']],
  ['no such day', `2026-02-30T09:00:00Z,note`, ['wrong-cell@2:at']],
])('%s', (_, row, expected) => expect(codes(row)).toEqual(expected))

test('the nearest reading is suggested', () => {
  const { problems } = readLog(`${HEAD}\n${AT},gas,,,idle,C02,14,%vol`)
  expect(problems[0]!.args).toMatchObject({ nearest: 'CO2', step: 'gas' })
})

test('all problems of all rows in one pass, and no test read', () => {
  const { tests, problems } = readLog(`${HEAD}\n${AT},trim,,,idle,STFT1,x,%\n${AT},trim,,,idle,LTFT9,1,%\n${AT},note`)
  expect([tests.length, problems.map((p) => p.line)]).toEqual([0, [2, 3]])
})

test('columns that are not known are kept with the note', () => {
  const { tests } = readLog(`${HEAD}\n${AT},note,,,,,,,,,,,,,looked at it,torn`)
  expect(tests[0]!.note).toBe('looked at it; extra: torn')
})

test('rows of one time and step make one test; the order of rows does not matter, times do', () => {
  const rows = [`${AT},trim,,,idle,STFT1,8,%`, `${AT},trim,,,idle,LTFT1,12,%`, '2026-03-04T08:30:00Z,note', '2026-03-04T10:15:00+02:00,code,,,,P0171']
  const read = (order: readonly string[]) => readLog([HEAD, ...order].join('\n')).tests.map((t) => [t.step, t.effect?.value])
  expect(read(rows)).toEqual([['code', undefined], ['note', undefined], ['trim', 20]])
  expect(read([...rows].reverse())).toEqual(read(rows))
})
