import { describe, expect, test } from 'vitest'
import { rowOfResult, type FleetRow, type Overruled } from '../../src/fleet/fleet-row.ts'
import { withReviews } from '../../src/fleet/reviews.ts'
import { recordOf } from './fleet-jobs.ts'

/** What settles an overruled finding is common practice, no source: a repair shown to have held is the proof of a cause. */
const row = (workOrder: string, more: Partial<FleetRow>): FleetRow => ({
  ...rowOfResult(recordOf({ workOrder, date: '2026-03-04', odd: { 3: 'lean' } })),
  ...more,
})
const cause: Overruled = {
  of: 'cause',
  cylinder: null,
  stage: null,
  said: 'injector-restricted',
  instead: 'leak-runner-joint',
  by: 'R. Example',
}
const verdict: Overruled = {
  ...cause,
  of: 'verdict',
  cylinder: 3,
  stage: 'before',
  said: 'lean',
  instead: 'level',
}
const ended = (history: readonly FleetRow[]) =>
  withReviews(history)[0]!.reviews.map(({ end, settledBy }) => `${end} ${settledBy ?? ''}`.trim())[0]

describe('a cause overruled', () => {
  const first = row('1', { overruled: [cause] })
  const later = (more: Partial<FleetRow>) => row('2', { date: '2026-05-01', ...more })
  test.each<[string, FleetRow[], string]>([
    ['nothing came later', [first], 'open'],
    [
      'its own job mended the cause of the person',
      [{ ...first, mended: ['leak-runner-joint'] }],
      'reviewer 1',
    ],
    ['its own job mended that of the report', [{ ...first, mended: ['injector-restricted'] }], 'report 1'],
    [
      'a later job mended that of the person',
      [first, later({ mended: ['leak-runner-joint'] })],
      'reviewer 2',
    ],
    ['a later job mended a third', [first, later({ mended: ['plug-worn'] })], 'neither 2'],
    [
      'both mended in one go',
      [first, later({ mended: ['leak-runner-joint', 'injector-restricted'] })],
      'open',
    ],
    [
      'work on that of the person changed nothing',
      [first, later({ refuted: ['leak-runner-joint'] })],
      'report 2',
    ],
    [
      'work on that of the report changed nothing',
      [{ ...first, refuted: ['injector-restricted'] }],
      'reviewer 1',
    ],
    [
      'refuted first, and mended by a third afterwards',
      [{ ...first, refuted: ['injector-restricted'] }, later({ mended: ['plug-worn'] })],
      'neither 2',
    ],
    [
      'a later job of another kind of fault says nothing',
      [first, later({ families: ['circuit'], mended: ['leak-runner-joint'] })],
      'open',
    ],
  ])('%s', (_, history, expected) => {
    expect(ended(history)).toBe(expected)
  })
})

describe('a verdict overruled', () => {
  const first = row('1', { overruled: [verdict], work: 0 })
  const later = (more: Partial<FleetRow>) => row('2', { date: '2026-04-01', ...more })
  const none = { verdicts: [], families: [] }
  test.each<[string, FleetRow[], string]>([
    ['its own repair put the cylinder right', [{ ...first, work: 1, mendedCylinders: [3] }], 'report 1'],
    [
      'said in order, and its own repair put it right',
      [
        {
          ...first,
          work: 1,
          mendedCylinders: [3],
          overruled: [{ ...verdict, said: 'level', instead: 'lean' }],
        },
      ],
      'reviewer 1',
    ],
    ['the next recording is in order', [first, later({ ...none, inOrder: [1, 2, 3, 4] })], 'reviewer 2'],
    ['the next recording is lean', [first, later({})], 'report 2'],
    [
      'the next recording is rich',
      [first, later({ verdicts: [{ cylinder: 3, verdict: 'rich' }] })],
      'neither 2',
    ],
    ['the next recording cannot say', [first, later({ ...none, inOrder: [1, 2] })], 'open'],
    ['it comes after a quarter of a year', [first, later({ date: '2026-06-03' })], 'open'],
    ['work lies between', [{ ...first, work: 1 }, later({ ...none, inOrder: [3] })], 'open'],
  ])('%s', (_, history, expected) => {
    expect(ended(history)).toBe(expected)
  })
})

test('a row takes what persons overrule from the record, and not what they agree with', () => {
  const record = recordOf({ workOrder: '1', date: '2026-03-04', odd: { 3: 'lean' } })
  const entry = { ...verdict, agrees: false }
  const read = rowOfResult({
    ...record,
    review: [entry, { ...entry, agrees: true }],
    conclusion: {
      as_found: { class: 'fault' },
      now: { class: 'fault' },
      faults: [
        { cause: 'plug-worn', standing: 'clear', status: 'shown mended' },
        { cause: 'plug-fouled', standing: 'leading', status: 'contradicted' },
        { cause: 'other', standing: 'open' },
      ],
    },
  })
  expect(read).toMatchObject({
    overruled: [verdict],
    mended: ['plug-worn'],
    refuted: ['plug-fouled'],
    inOrder: [1, 2, 4],
  })
})
