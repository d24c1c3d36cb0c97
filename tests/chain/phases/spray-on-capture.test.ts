import { expect, test } from 'vitest'
import { eventSpeeds } from '../../../src/chain/phases/event-speeds.ts'
import { loadLimits } from '../../../src/limits/limits.ts'
import { plugTopCapture, type CaptureParameters } from '../../../src/model/capture-parameters.ts'
import { readTests } from '../../../src/test-log/read-tests.ts'
import { measureStage } from '../../support/repair-trials.ts'
import { logJob, logRows } from '../../support/test-log.ts'

const CAPTURE = 'captures/a.csv'

/** A minute of one plug's line, recorded slowly, while the idle swings; the speed changes by so much 0.7 s after the spray at 30 s. */
function longCapture(seed: number, changeRpm: number): CaptureParameters {
  const base = plugTopCapture({ cylinders: 4, seed, durationS: 62, rpm: 760, recorded: [1] })
  const speed = {
    ...base.engine.speed,
    swingRpm: 50,
    swingPeriodS: 2.3,
    changes: [{ fromS: 30.7, toS: 33.7, rpm: changeRpm }],
  }
  return { ...base, engine: { ...base.engine, speed }, recorder: { ...base.recorder, sampleHz: 50_000 } }
}

/** From samples to finding: events found, their speeds taken as the trace, the spray judged on it. */
function sprayed(parameters: CaptureParameters) {
  const { events } = measureStage(parameters, 'before')
  const speeds = eventSpeeds([{ entry: { file: CAPTURE }, events }], 4)
  const log = logRows(
    `at,step,place,reading,trace,from_s,to_s\n2026-03-04T09:10:00Z,spray,joint,propane,${CAPTURE},30,31.5`,
  )
  const { tests, problems } = readTests({
    log,
    traces: new Map(),
    speeds,
    job: logJob(),
    limits: loadLimits(),
  })
  expect(problems).toEqual([])
  return tests[0]!
}

test('a minute of samples, the speed rising by 80 rpm after the spray: a response of that size, at that time', () => {
  const { finding, effect, computed } = sprayed(longCapture(3, 80))
  expect(finding).toBe('response')
  expect(effect!.low).toBeLessThan(80)
  expect(effect!.high).toBeGreaterThan(80)
  expect(computed['latency']!.low).toBeLessThan(0.7)
  expect(computed['latency']!.high).toBeGreaterThan(0.7)
}, 120_000)

test('the same minute with nothing after the spray: no response, and the interval holds 0', () => {
  const { finding, effect } = sprayed(longCapture(3, 0))
  expect(finding).not.toBe('response')
  expect(effect!.low).toBeLessThan(0)
  expect(effect!.high).toBeGreaterThan(0)
}, 120_000)
