import { beforeAll, describe, expect, test } from 'vitest'
import { loadLimits } from '../../src/limits/limits.ts'
import type { KnownCapture } from '../../src/prove/known-capture.ts'
import { measureKnown, type Reading } from '../../src/prove/measure-known.ts'
import { modelCaptures } from '../../src/prove/model-captures.ts'
import { makeProof } from '../../src/prove/proof.ts'
import { proofLimits } from '../../src/prove/run-proof.ts'
import { scoreReading } from '../../src/prove/score-reading.ts'

describe('a proof can fail', () => {
  let known: KnownCapture
  let reading: Reading
  beforeAll(() => {
    known = modelCaptures()[0]!
    reading = measureKnown(known, loadLimits())
  })

  test('a right reading scores no counts and small errors', () => {
    expect(scoreReading(known, reading)).toMatchObject({
      missedPct: 0,
      falseEvents: 0,
      wrongCylinders: 0,
      wrongKinds: 0,
      wrongVerdicts: 0,
    })
  })
  test('a lost event is missed', () => {
    const found = { ...reading.found, events: reading.found.events.slice(0, -2) }
    expect(scoreReading(known, { ...reading, found }).missedPct).toBeGreaterThan(0.5)
  })
  test('an invented event is false', () => {
    const extra = { ...reading.found.events[0]!, breakdownS: reading.found.events[0]!.breakdownS + 5e-3 }
    expect(
      scoreReading(known, {
        ...reading,
        found: { ...reading.found, events: [...reading.found.events, extra] },
      }).falseEvents,
    ).toBe(1)
  })
  test('a wrong cylinder and a wrong verdict are counted', () => {
    const events = reading.found.events.map((e, i) =>
      i === 3 ? { ...e, cylinder: (e.cylinder! % 4) + 1 } : e,
    )
    const score = scoreReading(known, {
      ...reading,
      found: { ...reading.found, events },
      verdicts: new Map([...reading.verdicts, [1, 'lean']]),
    })
    expect([score.wrongCylinders, score.wrongVerdicts]).toEqual([1, 1])
  })
  test('a burn time 4 % long is beyond its limit, and the proof says so', () => {
    const events = reading.events.map((e) =>
      e.figures.burnMs.ok
        ? {
            ...e,
            figures: { ...e.figures, burnMs: { ...e.figures.burnMs, value: 1.04 * e.figures.burnMs.value } },
          }
        : e,
    )
    const score = scoreReading(known, { ...reading, events })
    const proof = makeProof([{ name: known.name, origin: known.origin, score }], proofLimits(), {
      version: '1',
      programSha256: 'x',
      date: '2026-03-04',
    })
    expect(proof.holds).toBe(false)
    expect(proof.worst.filter((w) => w.error > w.limit).map((w) => w.figure)).toEqual(['burnErrorPct'])
  })
})
