import type { TestFinding } from '../../test-log/findings.ts'
import { cappedDuring } from '../../test-log/isolation.ts'
import type { EngineLayout } from '../causes/engine-layout.ts'
import type { CausesTable } from '../causes/schema.ts'
import { covers, seatOf, seatsOf, type Seat } from './intake-path.ts'

/**
 * What the tests of one place add up to.
 * `answered`: the engine changed, or smoke came out. `through`: it answered, and no longer did with another port capped,
 * so that the air comes in there. `silent`: tried, and nothing. `disputed`: once and not again. `capped`: closed off
 * without a word on what that did. `unclear`: tried, nothing to be read from it.
 */
export const PLACE_STATES = ['answered', 'through', 'disputed', 'silent', 'capped', 'unclear'] as const
type PlaceState = (typeof PLACE_STATES)[number]

/** One place of the log and what was tried at it before the repair. */
export interface TriedPlace {
  place: string
  /** Undefined where the words name no one place of the intake path. */
  seat: Seat | undefined
  state: PlaceState
  /** Whether it answered in a way that leaves no other: twice, with the neighbours capped, by its cap, or by smoke. */
  proven: boolean
  /** Indices into the list of tests. */
  tests: readonly number[]
  /** What a test of it after the work said: it still answers, or is silent now. */
  after: 'answered' | 'silent' | undefined
}

/** A port the log closes and never opens. */
interface LeftCapped {
  place: string
  /** Index of the test that capped it. */
  test: number
  /** The brake servo: pedal effort rises until it is opened. */
  brakes: boolean
}

export interface LeakHunt {
  places: readonly TriedPlace[]
  /** Seats nobody looked at. */
  untried: readonly Seat[]
  leftCapped: readonly LeftCapped[]
}

const HUNT_STEPS: ReadonlySet<string> = new Set(['spray', 'cap', 'uncap', 'smoke'])

/**
 * The hunt for unmetered air as the log tells it, place by place along the intake path; undefined where nothing was
 * sprayed, capped or smoked.
 */
export function leakHunt(
  tests: readonly TestFinding[],
  about: { engine: EngineLayout; table: CausesTable },
): LeakHunt | undefined {
  if (!tests.some(({ step }) => HUNT_STEPS.has(step))) return undefined
  const capped = cappedDuring(tests)
  const named = [
    ...new Set(tests.flatMap((t) => (HUNT_STEPS.has(t.step) && t.place !== undefined ? [t.place] : []))),
  ]
  const of = new Map<string, number[]>(named.map((place) => [place, []]))
  tests.forEach(({ step, place }, index) => {
    if (place !== undefined && HUNT_STEPS.has(step)) of.get(place)!.push(index)
  })
  const places = [...of].map(([place, indices]) =>
    triedPlace(place, { indices, tests }, { ...about, capped }),
  )
  return {
    places,
    untried: seatsOf(about.engine).filter(
      (seat) => !places.some((p) => p.seat && p.state !== 'unclear' && covers(p.seat, seat)),
    ),
    leftCapped: leftCapped(tests, about),
  }
}

interface About {
  engine: EngineLayout
  table: CausesTable
  capped: readonly (readonly string[])[]
}

function triedPlace(
  place: string,
  { indices: of, tests }: { indices: readonly number[]; tests: readonly TestFinding[] },
  about: About,
): TriedPlace {
  const before = of.filter((i) => tests[i]!.stage === 'before')
  const after = of.filter((i) => tests[i]!.stage === 'after')
  return {
    place,
    seat: seatOf(place, about),
    ...standingOf(before, tests, about.capped),
    tests: of,
    after: after.some((i) => tests[i]!.finding === 'response')
      ? 'answered'
      : after.some((i) => tests[i]!.finding === 'no response')
        ? 'silent'
        : undefined,
  }
}

function standingOf(
  indices: readonly number[],
  tests: readonly TestFinding[],
  capped: readonly (readonly string[])[],
): { state: PlaceState; proven: boolean } {
  const found = (steps: readonly string[], finding: TestFinding['finding']) =>
    indices.filter((i) => steps.includes(tests[i]!.step) && tests[i]!.finding === finding)
  const others = (i: number) => capped[i]!.filter((place) => place !== tests[i]!.place)
  const [yes, no] = [found(['spray'], 'response'), found(['spray'], 'no response')]
  const [openYes, openNo] = [yes, no].map((list) => list.filter((i) => others(i).length === 0)) as [
    number[],
    number[],
  ]
  const [shutYes, shutNo] = [yes, no].map((list) => list.filter((i) => others(i).length > 0)) as [
    number[],
    number[],
  ]
  const [leaks, tight] = [found(['smoke', 'cap'], 'response'), found(['smoke', 'cap'], 'no response')]
  if ((openYes.length > 0 && openNo.length > 0) || (shutYes.length > 0 && shutNo.length > 0))
    return { state: 'disputed', proven: false }
  if (leaks.length > 0 && tight.length > 0) return { state: 'disputed', proven: false }
  if (leaks.length > 0) return { state: 'answered', proven: true }
  if (openYes.length > 0 && shutNo.length > 0) return { state: 'through', proven: false }
  if (yes.length > 0 && tight.length > 0) return { state: 'disputed', proven: false }
  if (yes.length > 0) return { state: 'answered', proven: shutYes.length > 0 || yes.length > 1 }
  if (no.length > 0 || tight.length > 0) return { state: 'silent', proven: false }
  return { state: indices.some((i) => tests[i]!.step === 'cap') ? 'capped' : 'unclear', proven: false }
}

/** Caps that no later row opens. Work at the very place takes the cap off with it. */
export function leftCapped(
  tests: readonly TestFinding[],
  about: { engine: EngineLayout; table: CausesTable },
): LeftCapped[] {
  const shut = new Map<string, number>()
  tests.forEach(({ step, place = '', toS }, index) => {
    if (step === 'cap' && toS === undefined) shut.set(place, index)
    else if (step === 'cap' || step === 'uncap' || step === 'repair') shut.delete(place)
  })
  return [...shut].map(([place, test]) => ({
    place,
    test,
    brakes: seatOf(place, about)?.hose === 'brake servo',
  }))
}
