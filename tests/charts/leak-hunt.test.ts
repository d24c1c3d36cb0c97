import { describe, expect, test } from 'vitest'
import { compileView } from '../../src/charts/compile-view.ts'
import { leakHuntChart } from '../../src/charts/leak-hunt.ts'
import type { LeakHuntRecord, Result } from '../../src/records/result.ts'
import { LANGUAGES, loadTexts } from '../../src/texts/load-texts.ts'
import { collisions, drawnTexts } from './drawn-items.ts'

type Engine = Result['job']['engine']
type Place = LeakHuntRecord['places'][number]

const engine = (cylinders: number, banks: Engine['banks'] = null): Engine => ({
  cylinders,
  strokes: 4,
  firing_order: Array.from({ length: cylinders }, (_, i) => i + 1),
  ignition: 'distributor',
  fuel: 'E10',
  pairs: null,
  banks,
  displacement_l: null,
})
const V8 = engine(8, { 1: [1, 3, 5, 7], 2: [2, 4, 6, 8] })

const place = (
  words: string,
  seat: Partial<NonNullable<Place['seat']>> | null,
  state: Place['state'],
): Place => ({
  place: words,
  seat: seat && { station: 'duct', hose: null, bank: null, cylinder: null, ...seat },
  state,
  proven: false,
  after: null,
  tests: ['T3'],
})
const PLACES: readonly Place[] = [
  place('air duct', { station: 'duct' }, 'silent'),
  place('throttle body gasket', { station: 'throttle' }, 'through'),
  place('brake servo hose', { station: 'hose', hose: 'brake servo' }, 'answered'),
  place('breather', { station: 'hose', hose: 'breather' }, 'capped'),
  place('manifold gasket bank 2', { station: 'manifold', bank: '2' }, 'disputed'),
  place('runner joint 3', { station: 'runner', bank: '1', cylinder: 3 }, 'unclear'),
  {
    ...place(
      'the joint behind the injector of cylinder 4, seen from the bulkhead, lower bolt',
      { station: 'port', bank: '2', cylinder: 4 },
      'answered',
    ),
    after: 'silent',
  },
  place('oil filler cap', null, 'silent'),
]
const hunt = (more: Partial<LeakHuntRecord> = {}): LeakHuntRecord => ({
  places: [...PLACES],
  untried: [{ station: 'plenum', hose: null, bank: null, cylinder: null }],
  next: {
    way: 'spray',
    place: null,
    seat: { station: 'runner', hose: null, bank: '1', cylinder: 5 },
    share: 0.4,
    says: { key: 'leak-hunt.next.runner', args: { cylinder: 5 }, text: '' },
  },
  left_capped: [],
  ...more,
})

describe.each(LANGUAGES)('in %s', (language) => {
  test.each([
    ['eight in two banks', V8],
    ['three in a row', engine(3)],
    ['twelve', engine(12, { 1: [1, 2, 3, 4, 5, 6], 2: [7, 8, 9, 10, 11, 12] })],
  ])('%s: within its edges, no words upon others', async (_, of) => {
    const plan = leakHuntChart(hunt(), of, loadTexts(language))
    const view = await compileView(plan.spec)
    const texts = drawnTexts(view)
    expect(collisions(texts)).toEqual([])
    expect(
      texts
        .filter((t) => t.x1 < -0.5 || t.x2 > plan.widthPt + 0.5 || t.y2 > plan.heightPt + 1.6)
        .map((t) => t.text),
    ).toEqual([])
    view.finalize()
  })
})

test('every place stands on the drawing where it sits, and in the list; one of no station in the list alone', async () => {
  const view = await compileView(leakHuntChart(hunt(), V8, loadTexts('en')).spec)
  const numbers = drawnTexts(view).map((t) => t.text)
  const drawn = (n: number) => numbers.filter((text) => text === String(n)).length
  // the number of a cylinder stands there as well
  expect(PLACES.map((_, i) => drawn(i + 1) - 1)).toEqual([2, 2, 2, 2, 2, 2, 2, 1])
  view.finalize()
})

test('words that leave the bank open lie at both gaskets', async () => {
  const places = [place('manifold gasket', { station: 'manifold' }, 'silent')]
  const view = await compileView(leakHuntChart(hunt({ places }), V8, loadTexts('en')).spec)
  expect(drawnTexts(view).filter((t) => t.text === '1')).toHaveLength(4)
  view.finalize()
})

test('the description names every place and what came of it, and how many were not tried', () => {
  const { alt } = leakHuntChart(hunt(), V8, loadTexts('en'))
  for (const { place: words } of PLACES) expect(alt).toContain(`${words}: `)
  expect(alt).toContain('Places not tried: 1')
})
