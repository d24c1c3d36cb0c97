import { beforeAll, describe, expect, test } from 'vitest'
import type { Capture } from '../../src/capture/capture.ts'
import { findEvents } from '../../src/ignition/find-events.ts'
import type { Engine } from '../../src/job/schema.ts'
import { JobError } from '../../src/problems/problem.ts'
import { makeRandom } from '../../src/maths/random.ts'
import { withSync } from '../support/degrade-capture.ts'
import { readFirstOf, type TruthEvent } from '../support/fixture-captures.ts'
import { scoreEvents } from '../support/score-events.ts'

/** Truth: circuit simulation, see tests/support/fixture-captures.ts; eight cylinders, 13 sync pulses in 2 s that decay within a millisecond. */
let engine: Engine
let capture: Capture
let truth: TruthEvent[]
beforeAll(async () => {
  ;({ engine, capture, truth } = await readFirstOf('c-eight-cyl5-lean'))
})

const PULSE = 50
const INTERVAL_S = 0.0196
const edges = (d: Float32Array): number[] => [...d.keys()].filter((i) => i > 0 && d[i]! > 2 && d[i - 1]! <= 2)
const strike = (d: Float32Array, at: number): void => {
  d.fill(0, Math.max(0, at - 20), at + 1500)
}
const add = (d: Float32Array, at: number): void => {
  d.fill(4.2, at, at + PULSE)
}
const shifted = (d: Float32Array, by: number): Float32Array => d.map((_, i) => d[i - by] ?? 0)

const scored = (seen: Capture) => {
  const found = findEvents(seen, engine)
  return { found, score: scoreEvents(found, seen, truth) }
}
const states = (found: ReturnType<typeof findEvents>) =>
  (['seen', 'bridged', 'rejected'] as const).map((s) => found.sync.filter((m) => m.state === s).length)

describe('told whatever the pulses look like', () => {
  const random = makeRandom(5)
  test.each<[string, (d: Float32Array) => Float32Array | void]>([
    ['turned over', (d) => d.map((v) => -v)],
    ['small and noisy', (d) => d.map((v) => 0.1 * v + 0.03 * random.gaussian())],
    ['on a pedestal', (d) => d.map((v) => v + 7)],
    ...[-0.45, -0.3, 0.1, 0.3, 0.45].map((share): [string, (d: Float32Array) => Float32Array] => [
      `${share} of an interval off`,
      (d) => shifted(d, Math.round((share * INTERVAL_S) / 2e-6)),
    ]),
    [
      'bouncing',
      (d) => {
        for (const at of edges(d)) add(d, at + 2 * PULSE)
      },
    ],
  ])('%s', (_, edit) => {
    const { found, score } = scored(withSync(capture, edit))
    expect(score).toMatchObject({ missed: [], extra: [], wrongCylinder: 0, untold: 0 })
    expect(states(found)).toEqual([13, 0, 0])
  })
})

describe('missing and extra pulses are noticed', () => {
  test('missing ones are bridged, and their events say so', () => {
    const { found, score } = scored(
      withSync(capture, (d) => {
        edges(d).forEach((at, k) => {
          if ([2, 5, 6].includes(k)) strike(d, at)
        })
      }),
    )
    expect(states(found)).toEqual([10, 3, 0])
    expect(score).toMatchObject({ wrongCylinder: 0, untold: 0 })
    expect(found.remarks.map((r) => r.code)).toEqual(['sync-bridged'])
    expect(found.events.filter((e) => e.flags.includes('bridged')).length).toBeGreaterThan(16)
  })

  test('extra ones are struck out', () => {
    const { found, score } = scored(
      withSync(capture, (d) => {
        edges(d).forEach((at, k) => {
          if ([1, 4, 8].includes(k)) add(d, at + 22_000)
        })
      }),
    )
    expect(states(found)).toEqual([13, 0, 3])
    expect(score).toMatchObject({ wrongCylinder: 0, untold: 0 })
    expect(found.remarks.map((r) => r.code)).toEqual(['sync-extra'])
  })

  test('so is a spike ten times as tall', () => {
    const { found, score } = scored(
      withSync(capture, (d) => {
        d[300_000] = 42
        d[700_000] = -42
      }),
    )
    expect(states(found)[0]).toBe(13)
    expect(score).toMatchObject({ wrongCylinder: 0, untold: 0 })
  })
})

describe('refused with the reason where the pulses could mean two cylinders, or none', () => {
  const why = (edit: (d: Float32Array) => Float32Array | void): unknown => {
    try {
      findEvents(withSync(capture, edit), engine)
    } catch (error) {
      if (error instanceof JobError)
        return error.problems.map((p) => [p.code, 'why' in p.args ? p.args.why : undefined])
      throw error
    }
    return 'told'
  }
  test.each<[string, string, (d: Float32Array) => Float32Array | void]>([
    [
      'a dead channel',
      'no-pulses',
      (d) => {
        d.fill(0)
      },
    ],
    ['half an interval off', 'pulse-midway', (d) => shifted(d, Math.round((0.5 * INTERVAL_S) / 2e-6))],
    [
      'as long as the pause',
      'pulses-wide',
      (d) => {
        const at = edges(d)
        for (const i of at) d.fill(4.2, i, i + Math.round((at[1]! - at[0]!) / 2))
      },
    ],
  ])('%s', (_, reason, edit) => expect(why(edit)).toEqual([['sync-lost', reason]]))

  // Then the strongest that is left over and over is what other cylinders' sparks leave on the channel.
  test('one pulse in two seconds', () => {
    const edit = (d: Float32Array) => {
      edges(d).forEach((at, k) => {
        if (k !== 6) strike(d, at)
      })
    }
    expect(why(edit)).toMatchObject([
      ['sync-lost', expect.stringMatching(/one-pulse|firings-missing|pulses-disagree/)],
    ])
  })

  test('a pulse every turn instead of every cycle', () => {
    const edit = (d: Float32Array) => {
      const at = edges(d)
      at.forEach((i, k) => {
        if (at[k + 1]) add(d, (i + at[k + 1]!) >> 1)
      })
    }
    expect(why(edit)).toMatchObject([['sync-lost', expect.stringMatching(/firings-missing|pulses-disagree/)]])
  })
})

test('an event that was lost does not shift the others', () => {
  const gone = [30, 31, 57].map((k) => truth[k]!)
  const channels = capture.channels.map((c) => {
    if (c.entry.carries === 'sync') return c
    const data = c.data.slice()
    for (const t of gone)
      data.fill(0, Math.round((t.t_breakdown_s - 6e-3) * 5e5), Math.round((t.t_breakdown_s + 8e-3) * 5e5))
    return { ...c, data }
  })
  const { score } = scored({ ...capture, channels })
  expect(score.missed).toEqual(gone)
  expect(score).toMatchObject({ extra: [], wrongCylinder: 0, untold: 0 })
})

test.each([3e-3, 9e-3, 15.3e-3, 19.6e-3, 50e-3])(
  'samples lost in transfer, %f s of them: no wrong cylinder, and few untold',
  (lostS) => {
    const from = Math.round(0.9 * 5e5)
    const lost = Math.round(lostS * 5e5)
    const channels = capture.channels.map((c) => {
      const data = new Float32Array(c.data.length - lost)
      data.set(c.data.subarray(0, from))
      data.set(c.data.subarray(from + lost), from)
      return { ...c, data }
    })
    const seen = { ...capture, channels, rows: capture.rows - lost }
    const moved = truth
      .filter((t) => t.t_breakdown_s < 0.895 || t.t_breakdown_s > 0.905 + lostS)
      .map((t) => (t.t_breakdown_s < 0.9 ? t : { ...t, t_breakdown_s: t.t_breakdown_s - lostS }))
    const found = findEvents(seen, engine)
    const score = scoreEvents(found, seen, moved)
    expect(score).toMatchObject({ missed: [], wrongCylinder: 0 })
    // At most the cycle in which the samples went.
    expect(score.untold).toBeLessThanOrEqual(8)
  },
)

test('several cylinders on one pickup and no sync channel', () => {
  const alone = { ...capture, channels: capture.channels.filter((c) => c.entry.carries !== 'sync') }
  expect(() => findEvents(alone, engine)).toThrow(
    expect.objectContaining({ problems: [expect.objectContaining({ code: 'sync-missing' })] }),
  )
})
