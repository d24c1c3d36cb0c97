import { describe, expect, test } from 'vitest'
import { BLIND_CASES } from './blind-cases.ts'
import { CASES } from './cases.ts'
import { FURTHER_CASES } from './further-cases.ts'
import { weighCase, type WorkedCase } from './case.ts'

const ALL = [...CASES, ...FURTHER_CASES, ...BLIND_CASES]
const named = (part: string): WorkedCase => ALL.find((c) => c.name.includes(part))!

// Which causes are at work in each: as the case is written; common practice, no source.
describe('two faults at once: both are named, and none is called clear', () => {
  test.each([
    ['two faults: a burnt lead on 2', ['leak-vacuum-hose', 'secondary-cylinder'], 'secondary-resistance'],
    ['two faults: a runner joint on 2', ['leak-runner-joint', 'plug-fouled'], 'read-plugs'],
    // the pressure is read already: nothing is left to test but the repairs
    ['two faults: a hose off', ['leak-vacuum-hose', 'fuel-delivery-low'], 'repair-both'],
  ])('%s', (part, causes, then) => {
    const { standing, next } = weighCase(named(part))
    expect(standing.kind).toBe('leading-beside')
    expect([standing.firsts[0]!.id, standing.beside!.cause.id].sort()).toEqual([...causes].sort())
    expect(next?.id).toBe(then)
  })
})

test('one fault is not torn in two: a second one is named in at most one further case', () => {
  const others = ALL.filter((c) => !c.name.startsWith('two faults')).filter(
    (c) => weighCase(c).standing.beside,
  )
  // A hose that feeds one runner makes that cylinder lean; its words do not say where it goes, so the injector stays a question.
  expect(others.map((c) => c.name)).toEqual([
    'a hose on the runner of cylinder 4 makes that one lean; plugged, it levels',
  ])
})
