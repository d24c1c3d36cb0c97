import type { Fact } from '../../test-log/fact.ts'
import type { JobFinding } from '../finding.ts'
import { STATE_OF, type Seen } from '../seen.ts'
import { findingStates, type Direction } from '../words.ts'
import type { FindingReader } from './reader.ts'

/** Places of the intake that answered to a spray, to smoke or to a cap, those that did not, and those that did both. */
export const leak: FindingReader = {
  kind: 'leak',
  side: 'log',
  makes: 'fault',
  repair: { back: 'reading', newAfter: 'opposes' },
  directions: ['answers', 'contradicts'],
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
          { state, place },
          told.filter((t) => t.place === place),
        ),
      )
    }),
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
  { state, place }: Pick<JobFinding, 'state'> & { place: string },
  told: readonly Told[],
): JobFinding {
  const has = (tells: Told['tells']) => told.filter((t) => t.tells === tells)
  const answers = has('answers')
  const torn = has('contradicts').length > 0
  const direction: Direction = torn ? 'contradicts' : answers.length ? 'answers' : 'none'
  const bearing = torn ? told : answers.length ? answers : told
  return {
    kind: 'leak',
    state,
    order: torn ? 'unsure' : answers.length ? 'out of order' : 'in order',
    where: { scope: 'place', bank: undefined, cylinders: [], place },
    direction,
    condition: undefined,
    reading: undefined,
    size: answered(tests, bearing),
    sure: torn ? 'leaning' : bearing.some((t) => t.sure) ? 'measured' : 'observed',
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
