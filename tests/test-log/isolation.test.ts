import { expect, test } from 'vitest'
import { gatherFacts } from '../../src/test-log/facts.ts'
import { readLog } from '../support/test-log.ts'

/** Steps as `spray joint response`, a minute apart; names and outcomes as in the contract. */
function facts(...steps: string[]) {
  const rows = steps.map((s, i) => {
    const [, step, place, outcome] = /^(\S+) (\S+) ?(.*)$/.exec(s)!
    return `2026-03-04T09:${String(i).padStart(2, '0')}:00Z,${step},${place},${outcome}`
  })
  const { tests, problems } = readLog(['at,step,place,outcome', ...rows].join('\n'))
  expect(problems).toEqual([])
  return gatherFacts(tests)
}
const short = (list: ReturnType<typeof facts>) =>
  list.flatMap((f) => {
    if (f.kind === 'isolation') return [`${f.place} ${f.drawsAir} (${f.capped.join('+')})`]
    return f.kind === 'contradiction'
      ? [`contradiction ${f.step} ${f.place}`]
      : f.kind === 'untested'
        ? [`untested ${f.place}`]
        : []
  })

// common practice, no published source
test.each([
  [
    'still responds with the neighbour capped',
    ['spray joint response', 'cap hose', 'spray hose no response', 'spray joint response'],
    ['joint itself (hose)'],
  ],
  [
    'stops',
    ['spray joint response', 'spray hose response', 'cap hose', 'spray joint no response'],
    ['joint through the capped path (hose)'],
  ],
  ['capped first, never sprayed open', ['spray hose no response', 'cap hose', 'spray joint no response'], []],
  [
    'uncapped again: the state is open',
    ['spray hose no response', 'cap hose', 'uncap hose', 'spray joint response'],
    [],
  ],
  [
    'two caps',
    [
      'spray joint response',
      'spray a response',
      'spray b response',
      'cap a',
      'cap b',
      'spray joint no response',
    ],
    ['joint through the capped path (a+b)'],
  ],
  [
    'the same state, both ways: a contradiction, nothing concluded',
    [
      'spray hose response',
      'spray joint response',
      'spray joint no response',
      'cap hose',
      'spray joint response',
    ],
    ['contradiction spray joint'],
  ],
  [
    'responds only capped',
    ['spray hose response', 'spray joint no response', 'cap hose', 'spray joint response'],
    ['contradiction isolation joint'],
  ],
  ['repaired without a test', ['spray joint response', 'repair gasket fixed'], ['untested gasket']],
  [
    'capped and never sprayed',
    ['spray joint response', 'cap hose', 'spray joint response'],
    ['untested hose', 'joint itself (hose)'],
  ],
])('%s', (_, steps, expected) => expect(short(facts(...steps))).toEqual(expected))

test('a contradiction of caps and of smoke is shown', () => {
  expect(
    short(
      facts(
        'spray hose response',
        'cap hose response',
        'uncap hose',
        'cap hose no response',
        'smoke joint leak',
        'smoke joint no leak',
      ),
    ),
  ).toEqual(['contradiction cap hose', 'contradiction smoke joint'])
})

test('outcomes of ear and eye are marked as observed; free words are not read into anything', () => {
  const { tests } = readLog(
    'at,step,place,outcome\n2026-03-04T09:00:00Z,spray,joint,response\n2026-03-04T09:01:00Z,spray,rail,hissing a bit\n2026-03-04T09:02:00Z,smoke,joint,leak',
  )
  expect(tests.map((t) => [t.finding, t.observed, t.outcome])).toEqual([
    ['response', true, 'response'],
    ['recorded', true, 'hissing a bit'],
    ['response', true, 'leak'],
  ])
})
