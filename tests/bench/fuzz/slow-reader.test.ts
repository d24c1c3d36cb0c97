import { expect, test } from 'vitest'
import { slowFigure } from './slow-reader.ts'

const point = { decimal: '.', thousands: '' } as const
const comma = { decimal: ',', thousands: '.' } as const

test.each([
  ['1.5', point, 1.5],
  ['-2', point, -2],
  ['+.5', point, 0.5],
  ['1.', point, 1],
  ['1e-3', point, 0.001],
  ['1,234.5', point, 1234.5],
  ['1 234.5', point, 1234.5],
  ["1'234", point, 1234],
  ['1,5', comma, 1.5],
  ['1.234,5', comma, 1234.5],
  ['12.345.678', comma, 12_345_678],
  ['\u22121,5', comma, -1.5],
] as const)('%s', (cell, style, value) => expect(slowFigure(cell, style)).toBe(value))

test.each([
  ['', point],
  ['1.2.3', point],
  ['1,5', point],
  ['Inf', point],
  ['0x10', point],
  ['1e999', point],
  ['12,34', { decimal: '.', thousands: ',' }],
] as const)('“%s” is no figure', (cell, style) => expect(slowFigure(cell, style)).toBeUndefined())
