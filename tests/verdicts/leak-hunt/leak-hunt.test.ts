import { describe, expect, test } from 'vitest'
import { loadCauses } from '../../../src/limits/load-causes.ts'
import { causesInForce } from '../../../src/verdicts/causes/override.ts'
import { seatOf } from '../../../src/verdicts/leak-hunt/intake-path.ts'
import { leakHunt } from '../../../src/verdicts/leak-hunt/leak-hunt.ts'
import { nextJoint, type Drawn } from '../../../src/verdicts/leak-hunt/next-joint.ts'
import { readLog } from '../../support/test-log.ts'

// What a place is, what its tests add up to, and which joint is next: common practice, no source.

const { table } = causesInForce(loadCauses())
const SIX = { cylinders: [1, 2, 3, 4, 5, 6], banks: { 1: [1, 3, 5], 2: [2, 4, 6] } }
const FOUR = { cylinders: [1, 2, 3, 4], banks: undefined }

/** Rows as `step|place|outcome`, a minute apart; `after|step|place|outcome` after the work. */
function testsOf(...rows: string[]) {
  const lines = rows.map((row, i) => {
    const [stage, step, place, outcome = ''] = row.startsWith('after|')
      ? row.split('|')
      : ['', ...row.split('|')]
    return `2026-03-04T09:${String(i).padStart(2, '0')}:00Z,${step},${place},${stage},${outcome}`
  })
  const { tests, problems } = readLog(['at,step,place,stage,outcome', ...lines].join('\n'))
  expect(problems.filter((p) => p.severity === 'refuse')).toEqual([])
  return tests
}
const hunt = (...rows: string[]) => leakHunt(testsOf(...rows), { engine: FOUR, table })!
const states = (...rows: string[]) =>
  hunt(...rows).places.map((p) => `${p.place}: ${p.state}${p.proven ? '!' : ''}`)
const next = (drawn: Drawn, ...rows: string[]) =>
  nextJoint(leakHunt(testsOf(...rows), { engine: SIX, table })!, { engine: SIX, table, drawn })

describe('where a place sits on the intake path', () => {
  test.each([
    ['air duct', 'duct'],
    ['throttle body gasket', 'throttle'],
    ['plenum gasket', 'plenum'],
    ['vacuum hose', 'hose vacuum'],
    ['brake servo hose', 'hose brake servo'],
    ['PCV hose', 'hose breather'],
    ['intake manifold gasket bank 2', 'manifold bank 2'],
    ['runner joint cylinder 3', 'runner bank 1 cylinder 3'],
    ['injector seal 5', 'port bank 1 cylinder 5'],
    ['oil filler cap', 'nowhere'],
  ])('%s: %s', (place, expected) => {
    const seat = seatOf(place, { table, engine: SIX })
    expect(
      seat
        ? [
            seat.station,
            seat.hose,
            seat.bank && `bank ${seat.bank}`,
            seat.cylinder && `cylinder ${seat.cylinder}`,
          ]
            .filter(Boolean)
            .join(' ')
        : 'nowhere',
    ).toBe(expected)
  })
})

test.each([
  ['a response', ['spray|throttle gasket|response'], ['throttle gasket: answered']],
  [
    'twice',
    ['spray|throttle gasket|response', 'spray|throttle gasket|response'],
    ['throttle gasket: answered!'],
  ],
  ['nothing', ['spray|throttle gasket|no response'], ['throttle gasket: silent']],
  ['once and not again', ['spray|duct|response', 'spray|duct|no response'], ['duct: disputed']],
  [
    'still with the hose closed',
    ['spray|duct|response', 'cap|vacuum hose|no response', 'spray|duct|response'],
    ['duct: answered!', 'vacuum hose: silent'],
  ],
  [
    'no longer with the hose closed',
    ['spray|duct|response', 'cap|vacuum hose|fixed', 'spray|duct|no response'],
    ['duct: through', 'vacuum hose: answered!'],
  ],
  ['closed, no word', ['cap|PCV hose|', 'uncap|PCV hose|'], ['PCV hose: capped']],
  ['smoke against spray', ['spray|duct|response', 'smoke|duct|no leak'], ['duct: disputed']],
  ['seen, not read', ['spray|duct|hard to say'], ['duct: unclear']],
])('%s', (_, rows, expected) => expect(states(...rows)).toEqual(expected))

test('without a spray, a cap or smoke there is no hunt', () =>
  expect(leakHunt(testsOf('note|x|'), { engine: FOUR, table })).toBeUndefined())

test('what nobody looked at stays on the list; an unclear try is no look', () => {
  const { untried } = hunt(
    'spray|throttle gasket|no response',
    'cap|vacuum hoses|no response',
    'spray|duct|unsure',
  )
  const left = untried.map((s) => s.station)
  expect(left).toContain('duct')
  expect(left).not.toContain('throttle')
  expect(untried.map((s) => s.hose)).not.toContain('vacuum')
  expect(left.filter((s) => s === 'runner')).toHaveLength(4)
})

test('a place that answers after the work is seen', () =>
  expect(hunt('spray|duct|response', 'repair|duct|fixed', 'after|spray|duct|response').places[0]!.after).toBe(
    'answered',
  ))

describe('a port left closed is asked about', () => {
  const left = (...rows: string[]) =>
    hunt(...rows).leftCapped.map((l) => `${l.place}${l.brakes ? ' (brakes)' : ''}`)
  test('never opened', () =>
    expect(left('cap|brake servo hose|no response')).toEqual(['brake servo hose (brakes)']))
  test('opened', () => expect(left('cap|PCV hose|fixed', 'uncap|PCV hose|')).toEqual([]))
  test('renewed', () => expect(left('cap|PCV hose|fixed', 'repair|PCV hose|fixed')).toEqual([]))
  test('closed again', () =>
    expect(left('cap|PCV hose|fixed', 'uncap|PCV hose|', 'cap|PCV hose|fixed')).toEqual(['PCV hose']))
})

describe('the next joint', () => {
  const say = (joint: ReturnType<typeof next>) =>
    joint &&
    [joint.way, joint.place ?? joint.seat?.station, joint.seat?.hose, joint.seat?.bank, joint.seat?.cylinder]
      .filter((x) => x !== undefined)
      .join(' ')
  test('nothing known: all hoses closed at once halve it', () =>
    expect(say(next({ kind: 'all' }, 'spray|oil filler|no response'))).toBe('cap hose'))
  test('hoses closed without change: the likeliest joint left', () =>
    expect(
      say(
        next(
          { kind: 'all' },
          ...['vacuum hose', 'PCV hose', 'brake hose', 'purge hose', 'egr valve'].map(
            (p) => `cap|${p}|no response`,
          ),
        ),
      ),
    ).toBe('spray duct'))
  test('one bank: its gasket', () =>
    expect(say(next({ kind: 'bank', bank: '2' }, 'spray|duct|no response'))).toBe('spray manifold 2'))
  test('one cylinder: its own joints and its gasket, nothing shared', () =>
    expect(
      say(
        next(
          { kind: 'cylinders', cylinders: [3] },
          'spray|manifold gasket|no response',
          'spray|runner joint 3|no response',
        ),
      ),
    ).toBe('spray port 1 3'))
  test('nothing left: smoke', () =>
    expect(
      say(
        next(
          { kind: 'bank', bank: '1' },
          'spray|manifold gasket bank 1|no response',
          ...[1, 3, 5].flatMap((c) => [
            `spray|runner joint ${c}|no response`,
            `spray|injector seal ${c}|no response`,
          ]),
        ),
      ),
    ).toBe('smoke'))
  test('one answered: made sure of with the hoses closed', () =>
    expect(say(next({ kind: 'all' }, 'spray|throttle gasket|response'))).toBe(
      'cap-and-spray throttle gasket',
    ))
  test('a hose answered: closed', () =>
    expect(say(next({ kind: 'all' }, 'spray|PCV hose|response'))).toBe('cap PCV hose breather'))
  test('once and not again: again', () =>
    expect(say(next({ kind: 'all' }, 'spray|duct|response', 'spray|duct|no response'))).toBe('again duct'))
  test('proven: none', () => expect(next({ kind: 'all' }, 'smoke|duct|leak')).toBeUndefined())
  test('its share is what it looks at of what is left', () => {
    const joint = next({ kind: 'all' }, 'spray|oil filler|no response')!
    const prior = (id: string) => table.causes[id]!.prior
    const hoses = [
      'leak-vacuum-hose',
      'leak-crankcase-ventilation',
      'leak-brake-booster',
      'purge-stuck-open',
      'egr-stuck-open',
    ]
      .map(prior)
      .reduce((a, b) => a + b)
    expect(joint.share).toBeCloseTo(
      hoses / (hoses + prior('leak-intake-duct') + prior('leak-throttle-body')),
      9,
    )
  })
})
