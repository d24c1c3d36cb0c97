import { sentence, ownWords, listOf } from '../texts/messages.ts'
import type { Addition } from './addition.ts'
import type { Fact } from './fact.ts'
import type { Says, TestFinding } from './findings.ts'
import { momentS } from './moment.ts'

type Stage = TestFinding['stage']

/** Ports capped at the time of every test, by index: capped by a `cap` before it and not yet uncapped. Names in order. */
export function cappedDuring(tests: readonly TestFinding[]): string[][] {
  const order = inTime(tests)
  const capped = new Set<string>()
  const found: string[][] = tests.map(() => [])
  let stage: Stage | undefined
  for (const { test, index } of order) {
    if (stage !== undefined && stage !== test.stage) capped.clear()
    stage = test.stage
    if (test.step === 'uncap') capped.delete(test.place ?? '')
    found[index] = [...new Set([...capped, ...closedOnTrace(test, tests)])].sort()
    // A cap with both instants on its trace is off again at the second.
    if (test.step === 'cap' && test.toS === undefined) capped.add(test.place ?? '')
  }
  return found
}

/** Ports closed and opened again on the trace of a test, and closed at its instant. */
const closedOnTrace = (
  { step, stage, trace, fromS, place }: TestFinding,
  tests: readonly TestFinding[],
): string[] =>
  step !== 'spray' || trace === undefined || fromS === undefined
    ? []
    : tests.flatMap((t) =>
        t.step === 'cap' && t.stage === stage && t.trace === trace && t.place !== place && isWithin(t, fromS)
          ? [t.place ?? '']
          : [],
      )
const isWithin = ({ fromS, toS }: TestFinding, atS: number): boolean =>
  fromS !== undefined && toS !== undefined && fromS <= atS && atS < toS

/**
 * Isolation: a place that still responds with neighbouring ports capped is itself drawing air; one that no longer does
 * was drawing through a capped port. Tests of the same place in the same state that disagree are a contradiction: shown
 * as that, and nothing is concluded from them.
 *
 * @source shop-practice
 */
export function isolate(tests: readonly TestFinding[], cappedAt: readonly (readonly string[])[]): Addition[] {
  return (['before', 'after'] as const).flatMap((stage) => {
    const sprays = sprayStates(tests, cappedAt, stage)
    const places = [...new Set(sprays.map((s) => s.place))]
    return [
      ...places.flatMap((place) =>
        isolatePlace(
          place,
          sprays.filter((s) => s.place === place),
          stage,
        ),
      ),
      ...untested(tests, stage),
    ]
  })
}

/** One place in one state of the caps, with every clear result in that state. */
interface SprayState {
  place: string
  capped: readonly string[]
  responses: number
  silences: number
  last: number
}

const inTime = (tests: readonly TestFinding[]) =>
  tests
    .map((test, index) => ({ test, index, at: momentS(test.at) }))
    .sort((a, b) => a.at - b.at || a.test.lines[0]! - b.test.lines[0]!)

function sprayStates(
  tests: readonly TestFinding[],
  cappedAt: readonly (readonly string[])[],
  stage: Stage,
): SprayState[] {
  const states = new Map<string, SprayState>()
  for (const { test, index } of inTime(tests)) {
    if (test.step !== 'spray' || test.stage !== stage) continue
    if (test.finding !== 'response' && test.finding !== 'no response') continue
    const place = test.place ?? ''
    const key = JSON.stringify([place, cappedAt[index]])
    const state = states.get(key) ?? {
      place,
      capped: cappedAt[index]!,
      responses: 0,
      silences: 0,
      last: index,
    }
    if (test.finding === 'response') state.responses++
    else state.silences++
    state.last = index
    states.set(key, state)
  }
  return [...states.values()]
}

function isolatePlace(place: string, states: readonly SprayState[], stage: Stage): Addition[] {
  const torn = states.filter((s) => s.responses > 0 && s.silences > 0)
  if (torn.length) {
    return torn.map((s) =>
      addition(s.last, sentence('tests.isolation.contradiction', { place: ownWords(place) }), {
        kind: 'contradiction',
        step: 'spray',
        place,
        stage,
        sure: true,
      }),
    )
  }
  const open = states.find((s) => s.capped.length === 0)
  const capped = states.filter((s) => s.capped.length > 0)
  if (capped.length === 0) return []
  if (open && open.responses === 0) {
    const odd = capped.find((s) => s.responses > 0)
    return odd
      ? [
          addition(
            odd.last,
            sentence('tests.isolation.only-capped', {
              place: ownWords(place),
              capped: listOf(odd.capped.map(ownWords), 'comma'),
            }),
            { kind: 'contradiction', step: 'isolation', place, stage, sure: false },
          ),
        ]
      : []
  }
  return capped.flatMap((s) => isolateState(s, { place, stage, openKnown: open !== undefined }))
}

function isolateState(s: SprayState, it: { place: string; stage: Stage; openKnown: boolean }): Addition[] {
  const { place, stage, openKnown } = it
  const args = { place: ownWords(place), capped: listOf(s.capped.map(ownWords), 'comma') }
  const fact = (drawsAir: 'itself' | 'through the capped path'): Fact => ({
    kind: 'isolation',
    place,
    capped: s.capped,
    drawsAir,
    stage,
    sure: true,
  })
  if (s.responses > 0) return [addition(s.last, sentence('tests.isolation.itself', args), fact('itself'))]
  if (openKnown)
    return [addition(s.last, sentence('tests.isolation.through', args), fact('through the capped path'))]
  return [addition(s.last, sentence('tests.isolation.open-missing', args))]
}

/** Capped or repaired places that no spray and no smoke test touched, in a job that looked for air that way. */
function untested(tests: readonly TestFinding[], stage: Stage): Addition[] {
  if (stage === 'after') return []
  const tried = new Set(tests.filter((t) => t.step === 'spray' || t.step === 'smoke').map((t) => t.place))
  if (tried.size === 0) return []
  const named = tests.flatMap((test, index) =>
    (test.step === 'repair' || test.step === 'cap') && !tried.has(test.place) ? [{ test, index }] : [],
  )
  const seen = new Set<string>()
  return named.flatMap(({ test, index }) => {
    const place = test.place ?? ''
    if (seen.has(place)) return []
    seen.add(place)
    return [
      addition(
        index,
        sentence(
          test.step === 'repair' ? 'tests.isolation.untested-repair' : 'tests.isolation.untested-cap',
          { place: ownWords(place) },
        ),
        { kind: 'untested', place, stage: test.stage, sure: true },
      ),
    ]
  })
}

const addition = (index: number, says: Says, fact?: Fact): Addition => ({
  index,
  says: [says],
  ...(fact ? { facts: [fact] } : {}),
})
