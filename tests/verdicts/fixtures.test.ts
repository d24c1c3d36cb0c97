import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { findEvents } from '../../src/ignition/find-events.ts'
import { loadLimits } from '../../src/limits/limits.ts'
import { measureEvents } from '../../src/metrics/measure-events.ts'
import { measureSpeed } from '../../src/metrics/measure-speed.ts'
import { measureQuality } from '../../src/metrics/quality/measure-quality.ts'
import { summarise } from '../../src/metrics/summarise.ts'
import { lookThrough } from '../../src/verdicts/gates/index.ts'
import { judgeEngine } from '../../src/verdicts/judge-engine.ts'
import { pickupKinds } from '../../src/verdicts/pickup-kind.ts'
import { FIXTURES, readFixture } from '../support/fixture-captures.ts'

const limits = loadLimits()
const instrument = { voltageUncertaintyPercent: 5, timeUncertaintyPpm: 100 }

// Truth: the verdicts the circuit simulation was made for, stated beside it.
test.each(FIXTURES)('%s: every cylinder gets its true verdict', async (name) => {
  const { cylinders: truth } = JSON.parse(
    readFileSync(new URL(`../fixtures/captures/truth/${name}.json`, import.meta.url), 'utf8'),
  ) as { cylinders: { cylinder: number; stage: string; accept: string[] }[] }
  const { engine, captures } = await readFixture(name)
  const taken = captures.map(({ capture }) => {
    const { stage, file } = capture.entry
    const found = findEvents(capture, engine)
    const events = measureEvents(found, { stage, engine, limits })
    const speed = measureSpeed(events, { stage, capture: file, engine, instrument })
    const cylinders = summarise(events, { stage, capture: file, engine, instrument })
    const gates = lookThrough(
      { entry: capture.entry, engine, facts: measureQuality(capture, found, events), speed, cylinders },
      limits,
    )
    return {
      cylinders,
      situation: {
        capture: file,
        entry: capture.entry,
        speed,
        remarks: [...found.remarks, ...gates],
        sampleRateHz: 1 / capture.sampleS,
        pickups: pickupKinds(capture.entry, engine),
      },
    }
  })
  const judged = judgeEngine(
    taken.flatMap((t) => t.cylinders),
    { captures: taken.map((t) => t.situation), compression: new Map(), limits },
  )
  expect(judged.length).toBe(truth.length)
  for (const {
    measures: { cylinder },
    judgement: { verdict },
  } of judged) {
    expect(truth.find((t) => t.cylinder === cylinder)!.accept, `cylinder ${cylinder}`).toContain(verdict)
  }
})
