import { beforeAll, describe, expect, test } from 'vitest'
import type { Capture } from '../../src/capture/capture.ts'
import { findEvents } from '../../src/ignition/find-events.ts'
import type { Engine } from '../../src/job/schema.ts'
import { measureEvents } from '../../src/metrics/measure-events.ts'
import { measureSpeed } from '../../src/metrics/measure-speed.ts'
import { loadLimits } from '../../src/limits/limits.ts'
import { readFirstOf, type TruthEvent } from '../support/fixture-captures.ts'
import { scoreEvents } from '../support/score-events.ts'

/** Truth: circuit simulation, see tests/support/fixture-captures.ts; twelve frames of 163 ms, each a cycle and a bit of six cylinders. */
let engine: Engine
let capture: Capture
let truth: TruthEvent[]
beforeAll(async () => {
  ;({ engine, capture, truth } = await readFirstOf('30-six-lean-frames'))
})

/** The record as if triggered otherwise: only these stretches of each frame are kept, times as they were. */
function kept(whole: Capture, stretches: readonly { from: number; to: number }[]): Capture {
  const at = (row: number): number =>
    whole.jumps!.reduce((t, j) => (row >= j.row ? t + j.extraS : t), whole.startS + row * whole.sampleS)
  let row = 0
  const frames = stretches.map(({ from, to }) => {
    const frame = { row, clockS: at(from) }
    row += to - from
    return frame
  })
  return {
    ...whole,
    rows: row,
    startS: frames[0]!.clockS,
    frames,
    jumps: frames.slice(1).map((f, i) => {
      const before = frames[i]!
      return { row: f.row, extraS: f.clockS - before.clockS - (f.row - before.row) * whole.sampleS }
    }),
    channels: whole.channels.map((channel) => {
      const data = new Float32Array(row)
      stretches.forEach(({ from, to }, i) => data.set(channel.data.subarray(from, to), frames[i]!.row))
      return { ...channel, data }
    }),
  }
}
const around = (whole: Capture, beforeS: number, afterS: number, of: (t: TruthEvent) => boolean) =>
  truth.filter(of).map((t) => {
    const row = whole.frames!.findLastIndex((f) => f.clockS <= t.t_breakdown_s)
    const frame = whole.frames![row]!
    const breakdown = frame.row + (t.t_breakdown_s - frame.clockS) / whole.sampleS
    return {
      from: Math.max(frame.row, Math.round(breakdown - beforeS / whole.sampleS)),
      to: Math.round(breakdown + afterS / whole.sampleS),
    }
  })

describe('whole events inside a frame count', () => {
  test('a cycle a frame: every event, its cylinder and its speed', () => {
    const found = findEvents(capture, engine)
    expect(scoreEvents(found, capture, truth)).toMatchObject({
      missed: [],
      extra: [],
      wrongCylinder: 0,
      untold: 0,
    })
    expect(found.events.filter((e) => e.flags.includes('partial'))).toEqual([])
    const measured = measureEvents(found, { stage: 'before', engine, limits: loadLimits() })
    const speeds = truth as unknown as { t_breakdown_s: number; rpm: number | null }[]
    for (const { t_breakdown_s, rpm } of speeds) {
      const event = measured.find((e) => Math.abs(t_breakdown_s - e.breakdownS) < 1e-4)!
      if (rpm) expect(event.figures.rpm.ok && Math.abs(event.figures.rpm.value / rpm - 1)).toBeLessThan(0.015)
    }
    const speed = measureSpeed(measured, {
      stage: 'before',
      capture: capture.file,
      engine,
      instrument: { voltageUncertaintyPercent: 5, timeUncertaintyPpm: 100 },
    })
    // 778.5 rpm over the 7 s of which the frames show 2 s.
    expect(speed.mean.ok && Math.abs(speed.mean.value - 778.5)).toBeLessThan(6)
    expect(speed.swing.ok).toBe(false)
  })

  test('a single event a frame: the sync cylinder told by the pulse beside it, no speed made up', () => {
    const single = kept(
      capture,
      around(capture, 4e-3, 6e-3, (t) => t.cylinder === 1),
    )
    const found = findEvents(single, engine)
    expect(found.events.length).toBe(truth.filter((t) => t.cylinder === 1).length)
    expect(new Set(found.events.map((e) => e.cylinder))).toEqual(new Set([1]))
    const measured = measureEvents(found, { stage: 'before', engine, limits: loadLimits() })
    expect(measured.every((e) => !e.figures.rpm.ok)).toBe(true)
  })

  test('a pickup of its own needs no sync, and nothing is counted from frame to frame', () => {
    const own = kept(
      capture,
      around(capture, 3e-3, 5e-3, (t) => t.cylinder === 5),
    )
    const channels = [{ ...own.channels[0]!, entry: { ...own.channels[0]!.entry, cylinders: 5 } }]
    const found = findEvents({ ...own, channels }, { ...engine, ignition: 'coil-per-cylinder' })
    expect(found.events.map((e) => e.cylinder)).toEqual(Array.from({ length: found.events.length }, () => 5))
    expect(found.events.length).toBe(truth.filter((t) => t.cylinder === 5).length)
    expect(found.events.every((e) => !e.flags.includes('partial'))).toBe(true)
    const burns = scoreEvents(
      found,
      own,
      truth.filter((t) => t.cylinder === 5),
    ).burnPct
    expect(Math.max(...burns)).toBeLessThan(3)
  })

  test('an event that the end of its frame cuts is marked and measured no further', () => {
    const cut = kept(
      capture,
      around(capture, 3e-3, 0.7e-3, (t) => t.cylinder === 1),
    )
    const found = findEvents(cut, engine)
    expect(found.events.every((e) => e.flags.includes('partial'))).toBe(true)
  })
})
