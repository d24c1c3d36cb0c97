import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { captureText } from '../../src/demo/capture-file.ts'
import { plainStyle } from '../../src/demo/scenario.ts'
import { distributorCapture, plugTopCapture } from '../../src/model/capture-parameters.ts'
import { simulateCapture, type SimulatedCapture } from '../../src/model/simulate-capture.ts'
import { peekFile } from '../../src/peek/peek-file.ts'
import type { Peeked } from '../../src/peek/peeked.ts'
import { sayPeek } from '../../src/peek/say-peek.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'burnline-peek-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

async function peek(name: string, text: string | Uint8Array, rate?: number): Promise<Peeked> {
  writeFileSync(join(folder, name), text)
  return (await peekFile(join(folder, name), { file: name, sampleRateHz: rate })).peeked
}

/** The truth of every capture here is the model's own: its parameters, never what peek says of it. */
const six = simulateCapture(distributorCapture({ cylinders: 6, seed: 5, durationS: 0.7, rpm: 900 }))
const [kv, volts] = plainStyle('a', 'sync').columns
const style = { ...plainStyle(), columns: [kv!, { ...volts!, name: 'b' }] }
const stamped = { ...style, time: { name: 't', unit: 'ms', perS: 1000, decimals: 3 } }
const rolesOf = (peeked: Peeked) => peeked.columns.map((c) => c.role)

describe('an engine of six on a distributor', () => {
  let seen: Peeked
  beforeAll(async () => {
    seen = await peek('six.csv', captureText(six, { ...stamped, unitsRow: true }))
  })

  test('what each column carries, from its samples: the names say nothing', () => {
    expect(rolesOf(seen)).toEqual(['time', 'secondary', 'sync'])
    expect(seen.columns[1]!.sureness).toBeGreaterThan(0.95)
  })
  test('rate, length, unit of time', () => {
    expect(seen.clock).toMatchObject({ unit: 'ms', unitWritten: true, even: true })
    expect(1 / seen.clock!.sampleS).toBeCloseTo(500_000, 0)
    expect(seen.clock!.durationS).toBeCloseTo(0.7, 3)
  })
  test('events, and six of them to a pulse', () => {
    const { events } = seen.columns[1]!
    expect(Math.abs(events!.count - six.truth.events.length)).toBeLessThanOrEqual(1)
    expect(events!.perPulse).toEqual({ count: 6, share: 1 })
    expect(events!.polarity).toBe('positive')
    expect(events!.scale).toBe(1)
  })
  test('the recorder: 12 bits over 20 kV either way in steps of 9.8 V, written to the volt', () => {
    expect(seen.columns[1]!.quantum!).toBeCloseTo(40 / 4096, 3)
    expect(seen.columns[1]!.bits!.value).toBeLessThanOrEqual(12)
  })
})

test('without a time column the rate is asked for, and with it events are found', async () => {
  const text = captureText(six, style)
  expect((await peek('untimed.csv', text)).clock).toBeNull()
  expect(rolesOf(await peek('untimed.csv', text, 500_000))).toEqual(['secondary', 'sync'])
})

test('a signal upside down through a divider, its unit volts: direction, and the ratio as a guess', async () => {
  const turned: SimulatedCapture = {
    ...six,
    channels: six.channels.map((c, i) => (i === 0 ? { ...c, data: c.data.map((v) => -v) } : c)),
  }
  const seen = await peek(
    'turned.csv',
    captureText(turned, {
      ...stamped,
      unitsRow: true,
      columns: [{ name: 'a', unit: 'V', perUnit: 1, decimals: 4 }, style.columns[1]!],
    }),
  )
  expect(seen.columns[1]!.role).toBe('secondary')
  expect(seen.columns[1]!.events).toMatchObject({ polarity: 'negative', scale: 1000 })
})

test('pickups on single coils: every one a secondary, no sync invented', async () => {
  const four = simulateCapture(plugTopCapture({ cylinders: 4, seed: 9, durationS: 0.8 }))
  const seen = await peek(
    'four.csv',
    captureText(four, {
      ...stamped,
      unitsRow: true,
      columns: ['p', 'q', 'r', 's'].map((name) => ({ name, unit: 'kV', perUnit: 1, decimals: 3 })),
    }),
  )
  expect(rolesOf(seen)).toEqual(['time', 'secondary', 'secondary', 'secondary', 'secondary'])
})

test('noise is neither secondary nor sync', async () => {
  const text = `t_us;x\n${Array.from({ length: 40_000 }, (_, i) => `${i * 2};${((i * 7919) % 997) / 100}`).join('\n')}\n`
  const seen = await peek('noise.csv', text)
  expect(['unknown']).toContain(seen.columns[1]!.role)
})

test('a slow trace of engine speed, uneven: read, with what refuses it as a capture', async () => {
  const text = `time_s,rpm\n${Array.from({ length: 300 }, (_, i) => `${(i * 0.1 + (i % 3) * 0.03).toFixed(2)},${780 + (i % 7)}`).join('\n')}\n`
  const seen = await peek('trace.csv', text)
  expect(rolesOf(seen)).toEqual(['time', 'speed'])
  expect(seen.clock!.even).toBe(false)
  expect(seen.problems.some((p) => p.severity === 'refuse' && p.code.startsWith('time-'))).toBe(true)
})

test('words for clipped samples are named; a column of words is left out; a trailing column too', async () => {
  const rows = Array.from(
    { length: 60 },
    (_, i) => `${(i * 0.001).toFixed(3)},${i === 20 ? 'OVL' : (i % 5) + 0.5},on`,
  )
  const seen = await peek('words.csv', `time_s,a_kv,state\n${rows.join('\n')}\n`)
  expect(seen.overRange).toEqual(['OVL'])
  expect(rolesOf(seen)[2]).toBe('words')
})

test('a long file is looked at in part, and says how much', async () => {
  const text = `t_us,v\n${Array.from({ length: 1_400_000 }, (_, i) => `${i * 2},${i % 50}.5`).join('\n')}\n`
  const seen = await peek('long.csv', text)
  expect(seen.whole).toBe(false)
  expect(seen.textBytes).toBeLessThan(text.length)
  expect(Math.abs(seen.rowsEstimated! / 1_400_000 - 1)).toBeLessThan(0.05)
  expect(seen.problems).toEqual([])
}, 20_000)

test('plain output holds ASCII alone, the other braille; both name every column', async () => {
  writeFileSync(join(folder, 'said.csv'), captureText(six, { ...stamped, unitsRow: true }))
  const look = await peekFile(join(folder, 'said.csv'), { file: 'said \u202e.csv', sampleRateHz: undefined })
  const plain = sayPeek(loadTexts('en'), look, { width: 78, plain: true }).join('\n')
  const rich = sayPeek(loadTexts('en'), look, { width: 78, plain: false }).join('\n')
  expect(plain).toMatch(/^[\x20-\x7e\n]+$/)
  expect(rich).toMatch(/[\u2801-\u28ff]/)
  for (const c of look.peeked.columns) expect(plain).toContain(`“${c.name}`.replace('“', '"'))
})
