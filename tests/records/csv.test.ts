import Papa from 'papaparse'
import { describe, expect, test } from 'vitest'
import { rounded, toCsv } from '../../src/records/csv.ts'
import { eventsCsv } from '../../src/records/events-csv.ts'

describe('CSV as RFC 4180', () => {
  test('CRLF, quotes doubled, line breaks inside quotes', () => {
    expect(
      toCsv(
        ['a', 'b'],
        [
          ['x "y"', 'one\ntwo'],
          ['p,q', null],
        ],
      ),
    ).toBe('a,b\r\n"x ""y""","one\ntwo"\r\n"p,q",\r\n')
  })
  test('a formula in text does not run, a negative number stays a number', () => {
    const text = toCsv(
      ['t', 'v'],
      [
        ['=1+1', -0.5],
        ['@cmd', 2],
        ['-x', 0],
        ['+y', 1e-7],
        ['\uff1dcmd', 1],
      ],
    )
    const rows = Papa.parse<string[]>(text.trim()).data
    expect(rows.slice(1).map((r) => r[0])).toEqual(["'=1+1", "'@cmd", "'-x", "'+y", "'\uff1dcmd"])
    expect(rows.slice(1).map((r) => Number(r[1]))).toEqual([-0.5, 2, 0, 1e-7, 1])
  })
  test('absent is an empty field, never 0; minus zero is 0', () => {
    expect([rounded(undefined, 2), rounded(-0.0001, 2), rounded(1.005, 2)]).toEqual([null, 0, 1])
    expect(Object.is(rounded(-0.0001, 2), 0)).toBe(true)
  })
})

test('events.csv has the columns of the contract', () => {
  // records contract, events.csv, and two columns added at its end
  expect(eventsCsv([]).trim()).toBe(
    'stage,capture,cylinder,event,t_s,firing_kv,burn_ms,start_kv,mid_kv,late_kv,late_rise_kv,late_rise_pct,early_change_kv,early_slope_kv_per_ms,late_slope_kv_per_ms,roughness_kv,coil_cycles,coil_khz,damping,dwell_ms,rpm,class,flags,frame,firing_kv_at_least',
  )
})
