import { describe, expect, test } from 'vitest'
import { scenePairs, scenesOf } from '../../src/charts/scenes.ts'
import type { Result } from '../../src/records/result.ts'

interface Shot {
  file: string
  stage: 'before' | 'after'
  cylinders: readonly number[]
  condition?: string
  engine?: 'warm' | 'cold'
}

/** A result with captures and bare cylinders only. */
const resultOf = (shots: readonly Shot[]): Result =>
  ({
    captures: shots.map(({ file, stage, condition = 'idle', engine = 'warm' }) => ({
      file,
      stage,
      condition,
      engine,
    })),
    cylinders: shots.flatMap(({ file, stage, cylinders }) =>
      cylinders.map((cylinder) => ({ capture: file, stage, cylinder })),
    ),
  }) as unknown as Result
const scenes = (shots: readonly Shot[]) => scenesOf(resultOf(shots), { sparkLines: [], speeds: [] })

describe('scenesOf', () => {
  test('captures of other cylinders join in one scene, cylinders ascending', () => {
    const [only, ...more] = scenes([
      { file: 'a', stage: 'before', cylinders: [3, 2] },
      { file: 'b', stage: 'before', cylinders: [4, 1] },
    ])
    expect(more).toEqual([])
    expect(only).toMatchObject({ id: 'before-idle-warm', captures: ['a', 'b'] })
    expect(only!.cylinders.map((c) => c.cylinder)).toEqual([1, 2, 3, 4])
  })

  test('a repeat of the same cylinders, another condition and another temperature open scenes of their own', () => {
    const shots: Shot[] = [
      { file: 'a', stage: 'before', cylinders: [1, 2] },
      { file: 'b', stage: 'before', cylinders: [1, 2] },
      { file: 'c', stage: 'before', cylinders: [1, 2], condition: '2500 rpm' },
      { file: 'd', stage: 'before', cylinders: [1, 2], engine: 'cold' },
    ]
    expect(scenes(shots).map((s) => s.id)).toEqual([
      'before-idle-warm',
      'before-idle-warm-2',
      'before-2500-rpm-warm',
      'before-idle-cold',
    ])
  })

  test('pairs need the same condition, temperature and turn', () => {
    const shots: Shot[] = [
      { file: 'a', stage: 'before', cylinders: [1] },
      { file: 'b', stage: 'before', cylinders: [1], condition: '2500 rpm' },
      { file: 'c', stage: 'after', cylinders: [1] },
      { file: 'd', stage: 'after', cylinders: [1], engine: 'cold', condition: '2500 rpm' },
    ]
    expect(scenePairs(scenes(shots)).map((p) => [p.before.captures, p.after.captures])).toEqual([
      [['a'], ['c']],
    ])
  })

  test('a capture without cylinders makes no scene', () => {
    expect(scenes([{ file: 'a', stage: 'before', cylinders: [] }])).toEqual([])
  })
})
