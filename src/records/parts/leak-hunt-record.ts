import { sentence, ownWords } from '../../texts/messages.ts'
import type { TestFinding } from '../../test-log/findings.ts'
import type { Texts } from '../../texts/messages.ts'
import type { Candidate } from '../../verdicts/causes/candidates.ts'
import type { WeighedCauses } from '../../verdicts/causes/weigh-causes.ts'
import { seatOfCause, type Seat } from '../../verdicts/leak-hunt/intake-path.ts'
import { leakHunt, type LeakHunt } from '../../verdicts/leak-hunt/leak-hunt.ts'
import { nextJoint, type Drawn, type NextJoint, type Way } from '../../verdicts/leak-hunt/next-joint.ts'
import type { Pattern } from '../../verdicts/pattern.ts'
import { toDigits } from '../round.ts'
import type { LeakHuntRecord } from '../result.ts'
import { testMark } from './marks.ts'
import { statement } from './statement.ts'
import { stepSays } from './step-words.ts'

/** The hunt for unmetered air, and the joint at which the job's next step takes it up. */
export interface Hunted {
  hunt: LeakHunt
  next: NextJoint | undefined
}

/** Undefined where nothing was sprayed, capped or smoked. */
export function huntOf(
  tests: readonly TestFinding[],
  { causes, pattern }: { causes: WeighedCauses; pattern: Pattern },
): Hunted | undefined {
  const hunt = leakHunt(tests, causes.context)
  return hunt && { hunt, next: nextOf(hunt, causes, drawnBy(pattern)) }
}

/** The hunt, for the record. */
export function leakHuntRecord(texts: Texts, { hunt, next }: Hunted, causes: WeighedCauses): LeakHuntRecord {
  return {
    places: hunt.places.map((p) => ({
      place: p.place,
      seat: p.seat ? seatRecord(p.seat) : null,
      state: p.state,
      proven: p.proven,
      after: p.after ?? null,
      tests: p.tests.map(testMark),
    })),
    untried: hunt.untried.map(seatRecord),
    next: next
      ? {
          way: next.way,
          place: next.place ?? null,
          seat: next.seat ? seatRecord(next.seat) : null,
          share: next.share === undefined ? null : toDigits(next.share, 3),
          // the words of the job's next step: a report has one
          says: statement(texts, sentence('leak-hunt.next', { step: stepSays(causes, next) })),
        }
      : null,
    left_capped: hunt.leftCapped.map(({ place, test, brakes }) => ({
      place,
      test: testMark(test),
      brakes,
      says: statement(
        texts,
        sentence(brakes ? 'leak-hunt.left-capped-brakes' : 'leak-hunt.left-capped', {
          place: ownWords(place),
          test: testMark(test),
        }),
      ),
    })),
  }
}

const seatRecord = ({ station, hose, bank, cylinder }: Seat) => ({
  station,
  hose: hose ?? null,
  bank: bank ?? null,
  cylinder: cylinder ?? null,
})

/** Tests for a leak that look at one cause's place. */
const AT_A_PLACE: Readonly<Record<string, Way>> = { 'spray-place': 'spray', 'cap-place': 'cap' }

/** The hunt's next joint is the job's next step where that is a test for a leak, and nothing elsewhere: a report has one next step. */
function nextOf(hunt: LeakHunt, { next, context }: WeighedCauses, drawn: Drawn): NextJoint | undefined {
  if (next === undefined) return undefined
  if (next.id === 'smoke') return { way: 'smoke', place: undefined, seat: undefined, share: undefined }
  if (next.id === 'spray-round') return nextJoint(hunt, { ...context, drawn })
  const way = AT_A_PLACE[next.id]
  const seat = next.target && seatOfTarget(next.target)
  return way && seat ? { way, place: undefined, seat, share: undefined } : undefined
}

const seatOfTarget = ({ id, bank, cylinder }: Candidate): Seat | undefined => {
  const at = seatOfCause(id)
  return at && { ...at, bank, cylinder }
}

const drawnBy = ({ pattern, cylinders }: Pattern): Drawn => {
  if (pattern.startsWith('bank ')) return { kind: 'bank', bank: pattern.slice('bank '.length) }
  return pattern === 'all' || cylinders.length === 0 ? { kind: 'all' } : { kind: 'cylinders', cylinders }
}
