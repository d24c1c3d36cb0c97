import { describe, expect, test } from 'vitest'
import { furtherFrames, isFrameTitle } from '../../src/capture/frame-columns.ts'
import { readCapture } from '../../src/capture/read-capture.ts'
import { captureEntry, places, problemsOf, scratch } from './as-file.ts'

const file = scratch()
/** Frames of 500 rows, 20 us a row; the figures count on through all of them. */
const ROWS = 500
const STEP_S = 20e-6
const value = (frame: number, i: number): string => String((frame * 7 + i) % 11)
const block = (frame: number, time: (i: number) => number): string =>
  Array.from({ length: ROWS }, (_, i) => `${time(i).toFixed(6)},${value(frame, i)}\n`).join('')
const FRAMES = [0, 1, 2, 3]
const STARTS = FRAMES.map((f) => f * ROWS)
const expected = Float32Array.from(
  FRAMES.flatMap((f) => Array.from({ length: ROWS }, (_, i) => Number(value(f, i)))),
)

describe('frames of a triggered recorder are read whole', () => {
  test.each<[string, string]>([
    ['jumps in time', `time,kv\n${FRAMES.map((f) => block(f, (i) => f * 0.7 + i * STEP_S)).join('')}`],
    ['time that starts anew', `time,kv\n${FRAMES.map((f) => block(f, (i) => i * STEP_S - 0.002)).join('')}`],
    [
      'tables one below the other',
      FRAMES.map((f) => `Segment ${f + 1}\n\ntime,kv\ns,kV\n${block(f, (i) => i * STEP_S - 0.002)}\n`).join(
        '',
      ),
    ],
  ])('%s', async (name, text) => {
    const read = await readCapture(file(`${name.replaceAll(' ', '-')}.csv`, text), captureEntry())
    expect(read.frames!.map((f) => f.row)).toEqual(STARTS)
    expect(read.sampleS).toBeCloseTo(STEP_S, 12)
    expect(read.channels[0]!.data).toEqual(expected)
    expect(read.jumps!.map((j) => j.row)).toEqual(STARTS.slice(1))
    expect(read.jumps!.every((j) => j.extraS > 0)).toBe(true)
  })

  const rated = { time: { sample_rate_hz: 1 / STEP_S } }
  const column = (f: number): string => Array.from({ length: ROWS }, (_, i) => `${value(f, i)}\n`).join('')
  test.each<[string, string]>([
    ['headers', FRAMES.map((f) => `kv\n${column(f)}`).join('')],
    ['titles', `kv\n${FRAMES.map((f) => `Frame ${f + 1}\n${column(f)}`).join('')}`],
    ['titles as remarks', `kv\n${FRAMES.map((f) => `# Frame ${f + 1}\n${column(f)}`).join('')}`],
    ['blank lines', `kv\n${FRAMES.map(column).join('\n')}`],
  ])('without a time, parted by %s', async (name, text) => {
    const read = await readCapture(file(`rate-${name.replaceAll(' ', '-')}.csv`, text), captureEntry(rated))
    expect(read.frames!.map((f) => f.row)).toEqual(STARTS)
    expect(read.channels[0]!.data).toEqual(expected)
  })

  test('blank lines that part no equal blocks part nothing', async () => {
    const lines = column(0).split('\n')
    const text = `kv\n${lines.slice(0, 120).join('\n')}\n\n${lines.slice(120).join('\n')}`
    const read = await readCapture(file('blank.csv', text), captureEntry(rated))
    expect(read.frames).toEqual([])
  })

  const matrix = (names: readonly string[]): string =>
    `time,${names.join(',')}\n${Array.from(
      { length: ROWS },
      (_, i) => `${(i * STEP_S).toFixed(6)},${FRAMES.map((f) => value(f, i)).join(',')}\n`,
    ).join('')}`
  const pickup = { carries: 'secondary', cylinders: 1, unit: 'kV' }
  test.each<[string, string[], Record<string, unknown>]>([
    ['named by the job', ['a', 'b', 'c', 'd'], { column: 'a', to_column: 'd' }],
    ['found by their names', ['Frame 1', 'Frame 2', 'Frame 3', 'Frame 4'], { column: 'Frame 1' }],
  ])('one column a frame, %s', async (name, names, channel) => {
    const entry = captureEntry({ channels: [{ ...pickup, ...channel }] })
    const read = await readCapture(file(`matrix-${name.replaceAll(' ', '-')}.csv`, matrix(names)), entry)
    expect(read.rows).toBe(4 * ROWS)
    expect(read.frames!.map((f) => f.row)).toEqual(STARTS)
    expect(read.channels[0]!.data).toEqual(expected)
  })

  test('two signals that take turns', async () => {
    const sync = { column: 'b', to_column: 'd', column_step: 2, carries: 'sync', cylinder: 1, unit: 'V' }
    const entry = captureEntry({
      channels: [{ ...pickup, column: 'a', to_column: 'c', column_step: 2, cylinders: 'all' }, sync],
    })
    const read = await readCapture(file('turns.csv', matrix(['a', 'b', 'c', 'd'])), entry)
    const part = (f: number): number[] => [...expected.subarray(f * ROWS, (f + 1) * ROWS)]
    expect([...read.channels[0]!.data]).toEqual([...part(0), ...part(2)])
    expect([...read.channels[1]!.data]).toEqual([...part(1), ...part(3)])
  })

  test('a channel that was not recorded in every frame is named', async () => {
    const entry = captureEntry({
      channels: [
        { ...pickup, column: 'a', to_column: 'c', cylinders: 'all' },
        { column: 'd', carries: 'sync', cylinder: 1, unit: 'V' },
      ],
    })
    const reading = readCapture(file('short.csv', matrix(['a', 'b', 'c', 'd'])), entry)
    expect(places(await problemsOf(reading))).toEqual(['frame-columns:1:5'])
  })
})

describe('damage is no frame', () => {
  const random = (i: number): number => (Math.imul(i + 1, 2654435761) >>> 0) / 2 ** 32
  test('samples missing at random, too near to each other for a whole event', async () => {
    let t = 0
    const rows = Array.from({ length: 4000 }, (_, i) => {
      t += random(i) < 0.02 ? 9 : 1
      return `${(t * STEP_S).toFixed(6)},${i % 11}\n`
    })
    const reading = readCapture(file('random.csv', `time,kv\n${rows.join('')}`), captureEntry())
    expect(places(await problemsOf(reading))).toEqual([expect.stringMatching(/^time-gap:/)])
  })
  test('time that runs back to anywhere', async () => {
    const text = `time,kv\n${block(0, (i) => i * STEP_S)}${block(1, (i) => 0.006 + i * STEP_S)}`
    const reading = readCapture(file('anywhere.csv', text), captureEntry())
    expect(places(await problemsOf(reading))).toEqual(['time-backwards:502:1'])
  })
  test('a rate that changes from block to block', async () => {
    const text = `time,kv\n${FRAMES.map((f) => block(f, (i) => i * STEP_S * (1 + 0.01 * f))).join('')}`
    const reading = readCapture(file('drifts.csv', text), captureEntry())
    expect((await problemsOf(reading)).map((p) => p.code)).toEqual(['time-backwards'])
  })
})

describe('columns and lines that name frames', () => {
  const names = (stem: string, n: number, from = 1): string[] =>
    Array.from({ length: n }, (_, i) => `${stem}${i + from}`)
  const found = (header: string[], taken: number[] = []): number =>
    furtherFrames({ columns: header.length, header }, 0, new Set(taken)).length
  test('frame words, from three on', () => {
    expect(found(names('Frame ', 3))).toBe(2)
    expect(found(names('waveform_', 40, 0))).toBe(39)
    expect(found(names('Frame ', 2))).toBe(0)
  })
  test("a recorder's channels are none, however many, nor are columns the job gives another meaning", () => {
    expect(found(names('CH', 20))).toBe(0)
    expect(found(names('kv', 12))).toBe(0)
    expect(found(names('Frame ', 5), [1])).toBe(0)
  })
  test('nameless columns beyond any number of inputs', () => {
    expect(furtherFrames({ columns: 41, header: undefined }, 1, new Set([0])).length).toBe(39)
    expect(furtherFrames({ columns: 9, header: undefined }, 1, new Set([0])).length).toBe(0)
  })
  test('titles', () => {
    expect([['Frame 7'], ['Segment', '2'], ['Record #3']].every(isFrameTitle)).toBe(true)
    expect([['Frame'], ['garbled 7'], ['Frame 7', '1', '2']].some(isFrameTitle)).toBe(false)
  })
})
