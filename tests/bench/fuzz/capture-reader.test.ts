import { expect, test } from 'vitest'
import { compareCapture } from './capture-reader.ts'
import type { Capture } from '../../../src/capture/capture.ts'
import { readCapture } from '../../../src/capture/read-capture.ts'
import { captureEntry, scratch } from '../../capture/as-file.ts'

const file = scratch()
const text = 'time,kv\n0.000,1.5\n0.002,-2.25\n0.004,3.125\n0.006,4\n'
const bytes = Buffer.from(text)
const right = await readCapture(file('a.csv', text), captureEntry())

test('a right reading stands', () => expect(() => compareCapture(right, bytes)).not.toThrow())

// Each is a fault a decoder could have: the comparison has to see it.
test.each<[string, (c: Capture) => Capture]>([
  [
    'a figure off by its last bit',
    (c) =>
      withData(c, (d) => {
        d[1] = Math.fround(-2.2500002)
      }),
  ],
  [
    'a sign lost',
    (c) =>
      withData(c, (d) => {
        d[1] = 2.25
      }),
  ],
  [
    'no figure',
    (c) =>
      withData(c, (d) => {
        d[2] = Number.NaN
      }),
  ],
  ['a row dropped without a word', (c) => ({ ...withData(c, () => undefined, 3), rows: 3 })],
  ['a row too many', (c) => ({ ...c, rows: 5 })],
  ['a clock twice as fast', (c) => ({ ...c, sampleS: c.sampleS / 2 })],
  ['a clock begun late', (c) => ({ ...c, startS: 1 })],
])('%s is found', (_, plant) => {
  expect(() => compareCapture(plant(right), bytes)).toThrow()
})

function withData(capture: Capture, change: (data: Float32Array) => void, rows = capture.rows): Capture {
  const data = capture.channels[0]!.data.slice(0, rows)
  change(data)
  return { ...capture, channels: [{ ...capture.channels[0]!, data }] }
}
