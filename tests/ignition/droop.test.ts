import { describe, expect, test } from 'vitest'
import { findEvents } from '../../src/ignition/find-events.ts'
import { loadLimits } from '../../src/limits/limits.ts'
import { median } from '../../src/maths/median.ts'
import { measureEvents } from '../../src/metrics/measure-events.ts'
import { distributorCapture, type CaptureParameters } from '../../src/model/capture-parameters.ts'
import { simulateCapture } from '../../src/model/simulate-capture.ts'
import { FIXTURES, readFixture } from '../support/fixture-captures.ts'
import { engineOf } from '../support/judge-simulated.ts'
import { asCapture } from '../synthetic/as-capture.ts'

/** Truth: the model's own pickup, a first-order high-pass of a stated time constant. */
function drooping(droopS: number, cylinders: number) {
  const base = distributorCapture({ cylinders, seed: 4, durationS: 1.2 })
  const parameters: CaptureParameters = { ...base, pickups: base.pickups.map((p) => ({ ...p, droopS })) }
  const simulated = simulateCapture(parameters)
  const engine = engineOf(parameters)
  const found = findEvents(asCapture(simulated), engine)
  const fadesMs = found.remarks.find((r) => r.code === 'pickup-droop')?.args['fadesMs'] as number | undefined
  const rises = measureEvents(found, { stage: 'before', engine, limits: loadLimits() }).flatMap(
    ({ figures: { lateRisePct } }) => (lateRisePct.ok ? [lateRisePct.value] : []),
  )
  const truth = simulated.truth.events.flatMap((e) => (e.levels && e.complete ? [e.levels.lateRisePct] : []))
  return { fadesMs, offPct: median(rises)! - median(truth)! }
}

describe('droop of the pickup', () => {
  test.each([
    [3, 4],
    [6, 4],
    [12, 4],
    [6, 8],
  ])('%d ms on %d cylinders is found and undone', (ms, cylinders) => {
    const { fadesMs, offPct } = drooping(ms / 1000, cylinders)
    // A fifth off in the time constant leaves a fifth of the droop's 9 points on a line, which the next check bounds.
    expect(Math.abs(fadesMs! / ms - 1)).toBeLessThan(0.2)
    expect(Math.abs(offPct)).toBeLessThan(1.5)
  })

  test('none is found where there is none', () => {
    expect(drooping(Infinity, 4).fadesMs).toBeUndefined()
  })

  test.each(FIXTURES)('none is found in the circuit simulation %s, whose pickups hold', async (name) => {
    const { engine, captures } = await readFixture(name)
    for (const { capture } of captures)
      expect(findEvents(capture, engine).remarks.filter((r) => r.code === 'pickup-droop')).toEqual([])
  })
})
