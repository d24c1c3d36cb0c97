import { describe, expect, test } from 'vitest'
import { runPool, type PoolEnd, type PoolSettings } from '../../src/batch/worker-pool.ts'

interface Act {
  name: string
  act?: 'heap' | 'buffers' | 'buffers-at-first' | 'exit' | 'throw' | 'busy'
  ms?: number
}
const SETTINGS: PoolSettings = {
  script: new URL('../support/pool-worker.mjs', import.meta.url),
  workerData: null,
  workers: 2,
  heapMib: 64,
  memoryBytes: Infinity,
  stop: new AbortController().signal,
  graceMs: 200,
}

/** Runs acts of given weight, and returns how each ended in the order of ending. */
async function run(acts: readonly (Act & { weight?: number })[], settings: Partial<PoolSettings> = {}) {
  const ends: [string, PoolEnd<string>['how']][] = []
  await runPool<Act, string>(
    acts.map((task) => ({ task, weight: task.weight ?? 1 })),
    { ...SETTINGS, ...settings },
    (task, end) => {
      ends.push([task.name, end.how])
    },
  )
  return ends
}

describe('a pool of worker threads', () => {
  test('begins with the heaviest', async () => {
    const ends = await run(
      [
        { name: 'light', weight: 1 },
        { name: 'heavy', weight: 9 },
        { name: 'middle', weight: 5 },
      ],
      { workers: 1 },
    )
    expect(ends).toEqual([
      ['heavy', 'done'],
      ['middle', 'done'],
      ['light', 'done'],
    ])
  })

  test('a piece of work that fills its heap, throws or ends its thread fails alone', async () => {
    const ends = await run([
      { name: 'a', act: 'heap', weight: 9 },
      { name: 'b', act: 'throw', weight: 8 },
      { name: 'c', act: 'exit', weight: 7 },
      { name: 'd' },
      { name: 'e' },
      { name: 'f' },
    ])
    expect(Object.fromEntries(ends)).toEqual({
      a: 'out-of-memory',
      b: 'crashed',
      c: 'crashed',
      d: 'done',
      e: 'done',
      f: 'done',
    })
  })

  test('memory outside the heaps is watched: the heaviest is given up, tried once alone, and then fails', async () => {
    const memoryBytes = process.memoryUsage.rss() + 400 * 2 ** 20
    const ends = await run(
      [
        { name: 'greedy', act: 'buffers', weight: 9 },
        ...Array.from({ length: 6 }, (_, i) => ({ name: `${i}`, ms: 150 })),
      ],
      { memoryBytes },
    )
    expect(ends.at(-1)).toEqual(['greedy', 'out-of-memory'])
    expect(ends.filter(([, how]) => how === 'done')).toHaveLength(6)
  })

  test("a piece that is the only one under way at the limit is tried once more by itself: the memory may be another's", async () => {
    const memoryBytes = process.memoryUsage.rss() + 400 * 2 ** 20
    const begun = new Int32Array(new SharedArrayBuffer(4))
    const ends = await run([{ name: 'blamed', act: 'buffers-at-first' }], { memoryBytes, workerData: begun })
    expect([ends, begun[0]]).toEqual([[['blamed', 'done']], 2])
  })

  test('a stop begins nothing more, lets short work end and gives up long work; every piece is told of once', async () => {
    const stop = new AbortController()
    const ends: [string, string][] = []
    const acts: (Act & { weight: number })[] = [
      { name: 'endless', act: 'busy', weight: 9 },
      { name: 'first', weight: 8 },
      { name: 'under way', ms: 100, weight: 7 },
      { name: 'never begun', weight: 1 },
    ]
    await runPool<Act, string>(
      acts.map((task) => ({ task, weight: task.weight })),
      { ...SETTINGS, stop: stop.signal, graceMs: 1500 },
      (task, end) => {
        ends.push([task.name, end.how])
        if (task.name === 'first') setTimeout(() => stop.abort(), 0)
      },
    )
    expect(ends).toEqual([
      ['first', 'done'],
      ['never begun', 'stopped'],
      ['under way', 'done'],
      ['endless', 'stopped'],
    ])
  })

  test('stopped before it begins, or without work, it ends at once', async () => {
    expect(await run([{ name: 'a' }], { stop: AbortSignal.abort() })).toEqual([['a', 'stopped']])
    expect(await run([])).toEqual([])
  })
})
