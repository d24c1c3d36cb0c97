import { expect, test } from 'vitest'
import { drawColumn, stretchOf } from '../../src/peek/draw-columns.ts'

const room = { width: 8, height: 4 }
const ramp = Float32Array.from({ length: 64 }, (_, i) => i)
const whole = { from: 0, to: 64 }

test('plain: a ramp climbs from the lowest line on the left to the highest on the right', () => {
  const lines = drawColumn(ramp, whole, { room, plain: true })
  expect(lines.map((l) => l.length)).toEqual([8, 8, 8, 8])
  expect(lines.join('')).toMatch(/^[ *]+$/)
  expect([lines[3]![0], lines[0]![7], lines[0]![0], lines[3]![7]]).toEqual(['*', '*', ' ', ' '])
})

test('every part of the stretch is drawn: no gap in any column', () => {
  const lines = drawColumn(
    ramp.map((v) => Math.sin(v)),
    whole,
    { room, plain: true },
  )
  for (let x = 0; x < 8; x++)
    expect(
      lines.some((line) => line[x] === '*'),
      String(x),
    ).toBe(true)
})

// Unicode 15, block Braille Patterns: dot 1 is bit 0 (upper left), dot 8 bit 7 (lower right).
test('braille: one full cell has all eight dots', () => {
  const data = Float32Array.of(0, 1, 0, 1, 0, 1, 0, 1)
  expect(drawColumn(data, { from: 0, to: 8 }, { room: { width: 1, height: 1 }, plain: false })).toEqual([
    '\u28ff',
  ])
})
test('braille: a ramp over one cell takes the lower left and the upper right', () => {
  const [cell] = drawColumn(
    Float32Array.of(0, 0, 3, 3),
    { from: 0, to: 4 },
    { room: { width: 1, height: 1 }, plain: false },
  )
  const bits = cell!.codePointAt(0)! - 0x2800
  expect([bits & 0x40, bits & 0x08, bits & 0x01]).toEqual([0x40, 0x08, 0])
})

test('a level signal, one row, no row', () => {
  expect(
    drawColumn(new Float32Array(64), whole, { room, plain: true }).filter((l) => l.includes('*')),
  ).toEqual(['********'])
  expect(drawColumn(Float32Array.of(1), { from: 0, to: 1 }, { room, plain: true })).toHaveLength(4)
  expect(drawColumn(new Float32Array(0), { from: 0, to: 0 }, { room, plain: true }).join('').trim()).toBe('')
})

test('the stretch is one cycle where pulses show it, a few events else, all of it without either', () => {
  const columns = [{ index: 0, name: 'a', data: new Float32Array(1000) }]
  const base = { sampleS: 1e-3, columns, eventsS: [], pulsesS: [] }
  expect(stretchOf({ ...base, pulsesS: [0.2, 0.4, 0.6] })).toEqual({ from: 184, to: 416 })
  expect(stretchOf({ ...base, eventsS: [0.1, 0.2, 0.3, 0.4, 0.5, 0.6] })).toEqual({ from: 68, to: 532 })
  expect(stretchOf(base)).toEqual({ from: 0, to: 1000 })
  expect(stretchOf({ ...base, sampleS: undefined, pulsesS: [0.2, 0.4] })).toEqual({ from: 0, to: 1000 })
})
