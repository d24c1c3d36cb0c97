import { describe, expect, test } from 'vitest'
import { distributorCapture, withCylinders } from '../../../src/model/capture-parameters.ts'
import { judgeSimulated } from '../../support/judge-simulated.ts'

const LEAN = { mixtureKv: 0.75, breakdownFactor: 1.06 }

/** Verdict and basis of every cylinder of a simulated capture at 2500 rpm. */
function at2500(cylinders: number, lean: readonly number[], seed = 3): string[] {
  const parameters = withCylinders(
    distributorCapture({ cylinders, seed, durationS: 1.1, rpm: 2500 }),
    new Map(lean.map((c) => [c, LEAN])),
  )
  const outcome = judgeSimulated(parameters, (c) => ({ ...c, entry: { ...c.entry, condition: '2500 rpm' } }))
  if (outcome.refused) throw new Error(outcome.refused.join(' '))
  return outcome.judged.map((j) => `${j.judgement.verdict} ${j.judgement.basis}`)
}

// Truth is what was put into the simulation; that a bank, one or all may be lean is common practice, no source.
describe('at 2500 rpm the cylinders are held against each other', () => {
  const level = 'level fellows'
  const lean = 'lean fellows'
  test('one bank of six', () => {
    expect(at2500(6, [1, 2, 3])).toEqual([lean, lean, lean, level, level, level])
  })
  test('one of two', () => {
    expect(at2500(2, [2])).toEqual(['level limit', lean])
  })
  test('one of three', () => {
    expect(at2500(3, [2])).toEqual([level, lean, level])
  })
  test('three of four', () => {
    expect(at2500(4, [1, 2, 4])).toEqual([lean, lean, 'level limit', lean])
  })
  test('all level', () => {
    expect(at2500(4, [])).toEqual([level, level, level, level])
  })
  test('all lean: none is level to compare with, so the limit decides', () => {
    expect(at2500(4, [1, 2, 3, 4])).toEqual(Array.from({ length: 4 }, () => 'lean limit'))
  })
})
