import { beforeAll, expect, test } from 'vitest'
import type { Capture } from '../../src/capture/capture.ts'
import { findEvents } from '../../src/ignition/find-events.ts'
import type { Engine } from '../../src/job/schema.ts'
import { cut } from '../support/degrade-capture.ts'
import { readFirstOf, type TruthEvent } from '../support/fixture-captures.ts'
import { scoreEvents } from '../support/score-events.ts'

/** Truth: circuit simulation, see tests/support/fixture-captures.ts. */
let engine: Engine
let capture: Capture
let truth: TruthEvent[]
beforeAll(async () => {
  ;({ engine, capture, truth } = await readFirstOf('c-eight-cyl5-lean'))
})

/** Offsets from one breakdown that put the edge in the rest, dwell, hump, firing line, spark line and ring. */
const PHASES_MS = [
  -6, -3.7, -3.5, -2, -0.9, -0.3, -0.1, -0.02, 0, 0.01, 0.05, 0.2, 0.7, 1.2, 1.35, 1.45, 1.6, 1.9, 3,
]

test.each(PHASES_MS)('a file that begins %f ms from a breakdown', (phaseMs) => {
  const at = truth[20]!.t_breakdown_s + phaseMs * 1e-3
  const seen = cut(capture, at, at + 0.5)
  const score = scoreEvents(findEvents(seen, engine), seen, truth)
  expect(score).toMatchObject({ missed: [], extra: [], wrongCylinder: 0, untold: 0 })
  expect(score.burnPct.at(-1)).toBeLessThan(3)
})

test.each(PHASES_MS)('a file that ends %f ms from a breakdown', (phaseMs) => {
  const at = truth[60]!.t_breakdown_s + phaseMs * 1e-3
  const seen = cut(capture, at - 0.5, at)
  const found = findEvents(seen, engine)
  const score = scoreEvents(found, seen, truth)
  expect(score).toMatchObject({ missed: [], extra: [], wrongCylinder: 0, untold: 0 })
  expect(score.burnPct.at(-1)).toBeLessThan(3)
  const last = found.events.find((e) => Math.abs(e.breakdownS - truth[60]!.t_breakdown_s) < 1e-4)
  // The arc goes out 1.3 to 1.5 ms after breakdown; 0.3 ms of ring are needed to place that.
  if (last && phaseMs < 1.3) expect(last.flags).toContain('partial')
  if (phaseMs === 3) expect(last?.flags).not.toContain('partial')
})
