import { limit } from '../../limits/limits.ts'
import { trimOf } from '../../test-log/steps/trim.ts'
import type { Fact } from '../../test-log/fact.ts'
import type { JobFinding } from '../finding.ts'
import { STATE_OF, type Seen } from '../seen.ts'
import { findingStates, type Direction, type FindingState } from '../words.ts'
import { rowsOf } from './log-rows.ts'
import type { FindingReader } from './reader.ts'
import { byDirection } from './saying.ts'

/** Places of the intake that answered to a spray, to smoke or to a cap, those that did not, and those that did both. */
export const leak: FindingReader = {
  kind: 'leak',
  side: 'log',
  makes: 'fault',
  newAfter: 'opposes',
  directions: ['answers', 'contradicts'],
  role: 'sign',
  byCylinder: false,
  shift: undefined,
  read: (seen) =>
    findingStates.flatMap((state) => {
      const told = seen.tests.flatMap((test, index) =>
        STATE_OF[test.stage] === state && !seen.tooEarly.has(index)
          ? (test.facts ?? []).flatMap((fact) => tellsOf(fact, index))
          : [],
      )
      const places = [...new Set(told.map((t) => t.place))].sort()
      return places.map((place) =>
        ofPlace(
          seen,
          { state, place, denied: nothingElse(seen, state) },
          told.filter((t) => t.place === place),
        ),
      )
    }),
  short: byDirection({ answers: 'headline.found.leak' }, 'headline.found.leak-torn'),
  plain: byDirection({ answers: 'page.found.leak' }, 'page.found.leak-torn'),
  figure: () => undefined,
  again: 'page.again.leak',
}

/** What one fact tells of one place. */
interface Told {
  place: string
  index: number
  tells: 'answers' | 'silent' | 'contradicts'
  sure: boolean
}

function tellsOf(fact: Fact, index: number): Told[] {
  const told = (place: string, tells: Told['tells']): Told => ({ place, index, tells, sure: fact.sure })
  switch (fact.kind) {
    case 'spray-response':
      return fact.capped.length ? [] : [told(fact.place, 'answers')]
    case 'spray-silent':
      return fact.capped.length ? [] : [told(fact.place, 'silent')]
    case 'isolation':
      return fact.drawsAir === 'itself'
        ? [told(fact.place, 'answers')]
        : fact.capped.filter((place) => place !== fact.place).map((place) => told(place, 'answers'))
    case 'smoke':
      return [told(fact.place, fact.leak ? 'answers' : 'silent')]
    case 'cap':
      return [told(fact.place, fact.changed ? 'answers' : 'silent')]
    case 'contradiction':
      return fact.step === 'compression' || fact.step === 'methods' ? [] : [told(fact.place, 'contradicts')]
    default:
      return []
  }
}

function ofPlace(
  { tests }: Seen,
  { state, place, denied }: Pick<JobFinding, 'state'> & { place: string; denied: boolean },
  told: readonly Told[],
): JobFinding {
  const has = (tells: Told['tells']) => told.filter((t) => t.tells === tells)
  const answers = has('answers')
  const torn = has('contradicts').length > 0
  const direction: Direction = torn ? 'contradicts' : answers.length ? 'answers' : 'none'
  const doubted = denied && answers.length === 1 && !answers[0]!.sure
  const bearing = torn ? told : answers.length ? answers : told
  return {
    kind: 'leak',
    state,
    order: torn || doubted ? 'unsure' : answers.length ? 'out of order' : 'in order',
    where: { scope: 'place', bank: undefined, cylinders: [], place },
    direction,
    condition: undefined,
    reading: undefined,
    size: answered(tests, bearing),
    sure: torn || doubted ? 'leaning' : bearing.some((t) => t.sure) ? 'measured' : 'observed',
    why: undefined,
    unsure: [],
    tests: [...new Set(bearing.map((t) => t.index))],
    captures: [],
  }
}

/** The change of speed the trace showed, the largest. */
function answered(tests: Seen['tests'], told: readonly Told[]): JobFinding['size'] {
  const changes = told.flatMap(({ index }) => {
    const { computed } = tests[index]!
    const change = computed['changeTogether'] ?? computed['change']
    return change ? [change] : []
  })
  const most = [...changes].sort((a, b) => Math.abs(b.value) - Math.abs(a.value))[0]
  return most && { ...most, limitLow: undefined, limitHigh: undefined }
}

/**
 * Every cylinder of a warm idle burns level and the trims at idle are in order: what a leak worth finding would show does
 * not, so that one answer by eye or ear is to be repeated before it is called one.
 */
function nothingElse(seen: Seen, state: FindingState): boolean {
  const idle = seen.judged.filter((c) => c.state === state && c.condition === 'idle' && c.engine === 'warm')
  const trims = rowsOf(seen, 'trim').filter((row) => row.state === state && row.test.condition === 'idle')
  const edge = limit(seen.limits, 'trimHighPct')
  return (
    seen.cylinders.every((cylinder) => idle.some((c) => c.cylinder === cylinder && c.verdict === 'level')) &&
    trims.length > 0 &&
    trims.every(({ test }) => trimOf(test).every(({ total }) => Math.abs(total.value) <= edge))
  )
}
