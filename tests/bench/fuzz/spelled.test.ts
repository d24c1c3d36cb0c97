import { expect, test } from 'vitest'
import type { Capture } from '../../../src/capture/capture.ts'
import { readCapture } from '../../../src/capture/read-capture.ts'
import { problem } from '../../../src/problems/problem.ts'
import { captureEntry, scratch } from '../../capture/as-file.ts'
import { told } from './spelled-readers.ts'

const file = scratch()
const KV = [1.5, -2.25, 3.125, 4, 5.5]
const truth = { rows: 5, channels: [KV] }
const right = await readCapture(
  file('a.csv', `time,kv\n${KV.map((kv, i) => `${(i * 0.002).toFixed(3)},${kv}\n`).join('')}`),
  captureEntry(),
)
const withData = (change: (data: Float32Array) => Float32Array): Capture => {
  const data = change(right.channels[0]!.data.slice())
  return { ...right, rows: data.length, channels: [{ ...right.channels[0]!, data }] }
}

test('a right reading stands', () => expect(() => told(right, truth)).not.toThrow())

// Each is a fault a reader of dialects could have: the oracle has to see it.
test.each<[string, Capture, string]>([
  ['a row lost in silence', withData((data) => data.subarray(1)), '1 rows left out, 0 told of'],
  ['a row too many', withData((data) => Float32Array.of(...data, 1)), '6 rows read of 5'],
  ['a unit off by a thousand', withData((data) => data.map((v) => v * 1000)), 'row 0'],
  ['a sign lost', withData((data) => data.map(Math.abs)), 'row 1'],
  ['a clock in another unit', { ...right, sampleS: 2 }, 'off the clock'],
  [
    'a row left out that is told of without its line',
    {
      ...withData((data) => data.subarray(1)),
      warnings: [problem('row-cut-off', { file: 'a', severity: 'warn' }, { found: '' })],
    },
    'names no line',
  ],
])('%s', (_, read, what) => expect(() => told(read, truth)).toThrow(what))
