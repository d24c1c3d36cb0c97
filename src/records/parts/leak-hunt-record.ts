import { sentence, sentenceOf, ownWords } from '../../texts/messages.ts'
import type { Says, TestFinding } from '../../test-log/findings.ts'
import type { TextKey, Texts, WordKey } from '../../texts/messages.ts'
import type { Candidate } from '../../verdicts/causes/candidates.ts'
import type { WeighedCauses } from '../../verdicts/causes/weigh-causes.ts'
import { seatOfCause, type Seat } from '../../verdicts/leak-hunt/intake-path.ts'
import type { Hose, Station } from '../../verdicts/leak-hunt/stations.ts'
import { leakHunt, type LeakHunt } from '../../verdicts/leak-hunt/leak-hunt.ts'
import { nextJoint, type Drawn, type NextJoint, type Way } from '../../verdicts/leak-hunt/next-joint.ts'
import type { Pattern } from '../../verdicts/pattern.ts'
import { toDigits } from '../round.ts'
import type { LeakHuntRecord } from '../result.ts'
import { testMark } from './marks.ts'
import { statement } from './statement.ts'

/** The hunt for unmetered air, for the record; undefined where there was none. */
export function leakHuntRecord(
  texts: Texts,
  tests: readonly TestFinding[],
  { causes, pattern }: { causes: WeighedCauses; pattern: Pattern },
): LeakHuntRecord | undefined {
  const { table, engine } = causes.context
  const hunt = leakHunt(tests, { table, engine })
  if (!hunt) return undefined
  const next = nextOf(hunt, causes, drawnBy(pattern))
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
    next: next ? nextRecord(texts, next) : null,
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

/** Tests for a leak that look at one cause's place, and those that look at the whole intake. */
const AT_A_PLACE: Readonly<Record<string, Way>> = { 'spray-place': 'spray', 'cap-place': 'cap' }
const ALL_OVER: ReadonlySet<string> = new Set(['spray-round', 'smoke'])

/** The hunt's next joint is the job's next step where that is a test for a leak, and nothing elsewhere: a report has one next step. */
function nextOf(hunt: LeakHunt, { next, context }: WeighedCauses, drawn: Drawn): NextJoint | undefined {
  if (next === undefined) return undefined
  if (ALL_OVER.has(next.id))
    return next.id === 'smoke'
      ? { way: 'smoke', place: undefined, seat: undefined, share: undefined }
      : nextJoint(hunt, { ...context, drawn })
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

function nextRecord(texts: Texts, next: NextJoint): NonNullable<LeakHuntRecord['next']> {
  return {
    way: next.way,
    place: next.place ?? null,
    seat: next.seat ? seatRecord(next.seat) : null,
    share: next.share === undefined ? null : toDigits(next.share, 3),
    says: statement(texts, nextSays(next)),
  }
}

const BY_PLACE: Readonly<Record<Way, TextKey>> = {
  spray: 'leak-hunt.next.spray',
  cap: 'leak-hunt.next.cap',
  'cap-and-spray': 'leak-hunt.next.cap-and-spray',
  again: 'leak-hunt.next.again',
  smoke: 'leak-hunt.next.smoke',
}
const BY_STATION: Readonly<Record<Exclude<Station, 'hose'>, TextKey>> = {
  meter: 'leak-hunt.next.meter',
  duct: 'leak-hunt.next.duct',
  throttle: 'leak-hunt.next.throttle',
  plenum: 'leak-hunt.next.plenum',
  manifold: 'leak-hunt.next.manifold',
  runner: 'leak-hunt.next.runner',
  port: 'leak-hunt.next.port',
}
const BY_HOSE: Readonly<Record<Hose, WordKey>> = {
  vacuum: 'leak-hunt.next.vacuum-hoses',
  breather: 'leak-hunt.next.breather',
  'brake servo': 'leak-hunt.next.brake-servo',
  purge: 'leak-hunt.next.purge',
  'exhaust recirculation': 'leak-hunt.next.recirculation',
}

function nextSays({ way, place, seat }: NextJoint): Says {
  if (place !== undefined || seat === undefined)
    return sentenceOf(BY_PLACE[way], place === undefined ? {} : { place: ownWords(place) })
  if (seat.station === 'hose') return sentence(seat.hose ? BY_HOSE[seat.hose] : 'leak-hunt.next.hoses')
  if (seat.station === 'manifold' && seat.bank !== undefined)
    return sentence('leak-hunt.next.manifold-bank', { bank: seat.bank })
  return sentenceOf(BY_STATION[seat.station], seat.cylinder === undefined ? {} : { cylinder: seat.cylinder })
}
