import type { Sentence } from '../texts/args.ts'
import { listOf, ownWords, sentenceOf, type TextKey } from '../texts/messages.ts'
import { placeArg } from '../texts/place-words.ts'
import type { Says } from '../test-log/findings.ts'
import { causeKind } from '../verdicts/causes/cause-kinds.ts'
import type { EngineState, Fault, NextStep, PageOne, RepairConclusion, Stated } from './conclusion.ts'
import type { JobFinding, NamedFinding } from './finding.ts'
import { FINDINGS } from './findings/index.ts'
import { causeName, leadingFindings, namesIt, onceEach } from './headline.ts'
import { argsOf, offIdleSays } from './say-finding.ts'
import { isOpen } from './states.ts'
import type { FaultStatus, RepairReason, StandingWord, StatedStand } from './words.ts'
import type { Work } from './work.ts'

export interface PageOneInput {
  findings: readonly NamedFinding[]
  asFound: EngineState
  now: EngineState
  faults: readonly Fault[]
  stated: readonly Stated[]
  repair: RepairConclusion
  next: NextStep
  work: Work
  cylinders: readonly number[]
  captures: readonly { stage: 'before' | 'after'; condition: string; engine: 'warm' | 'cold' }[]
  /** Ignition events recorded. */
  events: number
  /** Whether a test rests on what was seen or heard. */
  observed: boolean
  /** Rows of the log that could weigh and do not: not understood, or without the limits they need. */
  unread: readonly Sentence[]
  /** Ports the log closes and never opens. */
  leftCapped: readonly { place: string; brakes: boolean }[]
  /** Whether a place of the log means the brake servo or its hose. */
  isBrakes: (place: string) => boolean
  /** Places worked on that no fault of mixture or spark sits at. */
  elsewhere: readonly string[]
  /** Findings as found that are back in order after the work. */
  back: ReadonlySet<string>
}

/** Everything page one says, decided here and nowhere else. */
export const pageOneOf = (input: PageOneInput): PageOne => ({
  found: foundSays(input),
  sure: sureSays(input),
  mended: mendedSays(input),
  unchecked: uncheckedSays(input),
  driving: drivingSays(input),
  next: input.next.kind === 'none' ? [says(noneLeft(input))] : [],
})

const says = (key: TextKey, args: Says['args'] = {}): Says => sentenceOf(key, args)
const plain = (f: JobFinding): Says => says(FINDINGS[f.kind].plain(f), argsOf(f))

const MOST_FOUND = 5

/** What is wrong: the findings that name it; of leaks those that the causes do not say already; then the cause. */
function foundSays({ findings, asFound, faults, stated, work }: PageOneInput): Says[] {
  const found = findings.filter((f) => f.state === 'as found')
  const leading = leadingFindings(found)
  const tested = found.filter(
    (f) => (f.kind === 'leak' || f.kind === 'part') && isOpen(f) && !leading.includes(f),
  )
  const captured = found.some((f) => f.captures.length > 0)
  return [
    ...(captured ? [] : [says(work.onRecord ? 'page.found.not-recorded' : 'page.found.no-captures')]),
    ...[...leading, ...tested].slice(0, MOST_FOUND).map(plain),
    ...unsureSays(leading),
    ...onceEach(leading.flatMap(offIdleSays)),
    ...(asFound.class === 'in order' ? [says('page.found.in-order')] : []),
    ...(captured && leading.length === 0 && asFound.class === 'not known'
      ? [says('page.found.not-judged')]
      : []),
    ...(asFound.class === 'in order' ? [] : faults.flatMap(causeSays)),
    ...codesSays(found, leading),
    ...stated
      .filter((s) => s.what === 'cause')
      .map((s) => says(STATED_SAYS[s.stand], { words: ownWords(s.words) })),
  ]
}

/** Stored codes that nothing found explains, where they are not what is said first. */
function codesSays(found: readonly NamedFinding[], leading: readonly NamedFinding[]): Says[] {
  const codes = found
    .filter((f) => f.kind === 'code' && isOpen(f) && f.explainedBy === undefined && !leading.includes(f))
    .flatMap((f) => f.reading ?? [])
  return codes.length === 0
    ? []
    : [says('page.found.codes-open', { codes: [...new Set(codes)].sort().join(', ') })]
}

/** Cylinders at the limit within a pattern that stands anyway. */
const unsureSays = (leading: readonly NamedFinding[]): Says[] =>
  leading.flatMap((f) =>
    f.unsure.length ? [says('page.found.unsure', { cylinders: f.unsure.join(', ') })] : [],
  )

const CAUSE_SAYS: Readonly<Record<StandingWord, { at: TextKey; bare: TextKey }>> = {
  clear: { at: 'page.cause.clear-at', bare: 'page.cause.clear' },
  leading: { at: 'page.cause.leading-at', bare: 'page.cause.leading' },
  'one of several': { at: 'page.cause.several-at', bare: 'page.cause.several' },
  open: { at: 'page.cause.open', bare: 'page.cause.open' },
}

const causeSays = ({ cause, place, standing }: Fault): Says[] => {
  if (cause === 'other') return [says('page.cause.open')]
  return [
    place === undefined
      ? says(CAUSE_SAYS[standing].bare, { cause: causeName(cause) })
      : says(CAUSE_SAYS[standing].at, { cause: causeName(cause), place: placeArg(place) }),
  ]
}

const STATED_SAYS: Readonly<Record<StatedStand, TextKey>> = {
  agrees: 'page.stated.agrees',
  'not tested': 'page.stated.not-tested',
  contradicted: 'page.stated.contradicted',
}

/** The figures that carry what was found, and how many sparks they rest on. */
function sureSays({ findings, events, cylinders }: PageOneInput): Says[] {
  const found = leadingFindings(findings.filter((f) => f.state === 'as found'))
  const carried = found.flatMap((f) => {
    const key = f.size ? FINDINGS[f.kind].figure(f) : undefined
    return key === undefined ? [] : [says(key, argsOf(f))]
  })
  const looked =
    events === 0
      ? []
      : [
          cylinders.length === 1
            ? says('summary.looked-one', { events })
            : says('summary.looked', { events, cylinders: cylinders.length }),
        ]
  return [...looked, ...carried.slice(0, 3)]
}

/** Mended or not: from the repair's verdict, with what is left; and the state now where the repair could not be checked. */
function mendedSays({ findings, repair, work, asFound, now }: PageOneInput): Says[] {
  const of = (ids: readonly string[]) => ids.flatMap((id) => findings.find((f) => f.id === id) ?? [])
  const opposing = of(repair.opposes)
  const left = leadingFindings(opposing)
  const alsoOut = opposing.filter((f) => !left.includes(f) && !namesIt(f))
  const still = [...left, ...alsoOut].slice(0, 3).map(plain)
  switch (repair.verdict) {
    case 'repair confirmed':
      return [
        says(repair.restsOn === 'log' ? 'page.mended.yes-log' : 'page.mended.yes'),
        ...nowSays(now, repair),
      ]
    case 'improved, not in order':
      if (still.length === 0) return [says('page.mended.said-not-fixed')]
      return [
        says(repair.why === 'uncovered' ? 'page.mended.uncovered' : 'page.mended.improved'),
        ...still,
        ...leftSays(repair.left),
      ]
    case 'no change':
      return [says('page.mended.no-change'), ...still]
    case 'worse':
      return [says('page.mended.worse'), ...still]
    case 'not checked': {
      if (!work.onRecord)
        return [says(asFound.class === 'in order' ? 'page.mended.nothing' : 'page.mended.no-repair')]
      return [says(NOT_SHOWN[repair.why]), ...still, ...nowSays(now, repair)]
    }
  }
}

const leftSays = (left: readonly number[]): Says[] =>
  left.length === 0
    ? []
    : [says(left.length === 1 ? 'page.mended.left-one' : 'page.mended.left', { cylinders: left.join(', ') })]

/** After work that the captures of the state before do not show, the state now by itself. */
const nowSays = (now: EngineState, { restsOn, verdict }: RepairConclusion): Says[] =>
  now.class === 'in order' && (restsOn === 'log' || verdict === 'not checked')
    ? [says('page.mended.now-in-order')]
    : []

const NOT_SHOWN: Readonly<Record<RepairReason, TextKey>> = {
  'nothing-after': 'page.mended.nothing-after',
  'too-early': 'page.mended.too-early',
  'not-comparable': 'page.mended.not-comparable',
  'not-read-again': 'page.mended.not-read-again',
  'captures-missing': 'page.mended.captures-missing',
  'cylinder-not-judged': 'page.mended.cylinder-not-judged',
  none: 'page.mended.not-shown',
  confirmed: 'page.mended.not-shown',
  'confirmed-by-log': 'page.mended.not-shown',
  opposed: 'page.mended.not-shown',
  'part-left': 'page.mended.not-shown',
  uncovered: 'page.mended.not-shown',
  'no-change': 'page.mended.not-shown',
  worse: 'page.mended.not-shown',
}

/** What this very job did not look at: cold, at speed, cylinders that were not judged, readings not taken again. */
function uncheckedSays({
  findings,
  faults,
  now,
  repair,
  captures,
  observed,
  work,
  cylinders,
  leftCapped,
  unread,
  elsewhere,
  asFound,
}: PageOneInput): Says[] {
  const state = work.onRecord && captures.some((c) => c.stage === 'after') ? 'after' : 'as found'
  const here = findings.filter((f) => f.state === state && f.kind === 'mixture')
  const of = (order: JobFinding['order']) =>
    [...new Set(here.filter((f) => f.order === order).flatMap((f) => f.where.cylinders))]
      .filter(
        (c) =>
          !here.some((f) => f.order !== order && f.order !== 'not known' && f.where.cylinders.includes(c)),
      )
      .sort((a, b) => a - b)
  const list = (key: { one: TextKey; some: TextKey }, numbers: readonly number[]) =>
    numbers.length === 0
      ? []
      : [says(numbers.length === 1 ? key.one : key.some, { cylinders: numbers.join(', ') })]
  const mended = new Set<string | undefined>(
    faults.filter((f) => f.status === 'shown mended').map((f) => f.id),
  )
  const again = new Set(
    now.notReadAgain
      .flatMap((id) => findings.find((f) => f.id === id) ?? [])
      .filter((f) => !isReadAgain(f, findings))
      // a part that was renewed and is shown to be what it was need not be tested again
      .filter((f) => f.kind !== 'part' || !mended.has(f.explainedBy))
      .map((f) => f.kind),
  )
  const unjudged = of('not known')
  return [
    ...(unjudged.length === cylinders.length && cylinders.length > 1
      ? []
      : list({ one: 'summary.open.not-judged-one', some: 'summary.open.not-judged' }, unjudged)),
    ...list(
      { one: 'summary.open.borderline-one', some: 'summary.open.borderline' },
      here.some((f) => f.order === 'unsure') ? of('unsure') : [],
    ),
    ...repair.remarks,
    ...(asFound.class === 'in order' ? [] : elsewhere).map((place) =>
      says('page.remark.other-part', { place: ownWords(place) }),
    ),
    ...[...again].flatMap((kind) => says(FINDINGS[kind].again)),
    ...(unread.length ? [says('page.unchecked.unread', { rows: listOf(unread, 'semicolon') })] : []),
    ...leftCapped.flatMap(({ place, brakes }) =>
      brakes ? [] : [says('page.unchecked.capped', { place: placeArg(place) })],
    ),
    ...coldSays(captures),
    ...conditionSays(captures),
    ...(observed ? [says('report.customer.by-ear')] : []),
  ]
}

/**
 * A reading of the log that was taken again, though its figures lie too near each other to tell a change; one taken with
 * a port closed off is of the hunt, and is taken again with the port open.
 */
const isReadAgain = (f: JobFinding, findings: readonly NamedFinding[]): boolean =>
  f.captures.length === 0 &&
  findings.some(
    (g) =>
      g.state === 'after' &&
      g.kind === f.kind &&
      g.reading === f.reading &&
      g.where.bank === f.where.bank &&
      g.where.place === f.where.place &&
      runningIn(g) === runningIn(f),
  )

/** How the engine ran, without what else was done meanwhile ("idle, port capped"). */
const runningIn = ({ condition = '' }: JobFinding): string => condition.split(',')[0]!.trim()

/** The engine as it came in, recorded cold alone. */
function coldSays(captures: PageOneInput['captures']): Says[] {
  const found = captures.filter((c) => c.stage === 'before')
  return found.length > 0 && found.every((c) => c.engine === 'cold') ? [says('page.remark.cold-found')] : []
}

/** Conditions in which no capture was taken: a cold engine, an engine at speed. */
function conditionSays(captures: PageOneInput['captures']): Says[] {
  if (captures.length === 0) return []
  const cold = captures.some((c) => c.engine === 'cold' || c.condition === 'cranking')
  const road = captures.some((c) => c.condition !== 'idle' && c.condition !== 'cranking')
  if (cold && road) return []
  return [says(cold ? 'page.unchecked.road' : road ? 'page.unchecked.cold' : 'page.unchecked.cold-and-road')]
}

const OPEN_STATUS: ReadonlySet<FaultStatus> = new Set(['open', 'worked on', 'contradicted'])

const touches = ({ cause }: Fault) => causeKind(cause)?.touches

/** Faults that stand open and touch safety: brake servo, fuel that may escape, a dead cylinder over a catalyst. */
function drivingSays(input: PageOneInput): Says[] {
  const { findings, faults, now, work, leftCapped, back } = input
  const state = work.onRecord && now.class !== 'not known' ? 'after' : 'as found'
  const open = faults.filter((f) => OPEN_STATUS.has(f.status))
  const here = findings.filter((f) => f.state === state && f.order === 'out of order' && !back.has(f.id))
  const escapes = here.some(
    (f) => f.kind === 'fuel-pressure' && (f.direction === 'falls' || f.direction === 'high'),
  )
  const dead = here.some((f) => (f.kind === 'circuit' && f.direction === 'open') || f.kind === 'misfire')
  return [
    ...leftCapped.flatMap(({ place, brakes }) =>
      brakes ? [says('page.driving.servo-shut', { place: ownWords(place) })] : [],
    ),
    ...(open.some((f) => touches(f) === 'brakes') || brakeLeak(input) ? [says('page.driving.brake')] : []),
    ...(escapes || open.some((f) => touches(f) === 'fuel') ? [says('page.driving.fuel')] : []),
    ...(dead ? [says('page.driving.catalyst')] : []),
  ]
}

/** A leak found at the brake servo that nothing shows mended, whatever cause comes first. */
const brakeLeak = ({ findings, faults, back, isBrakes }: PageOneInput): boolean =>
  findings.some(
    (f) =>
      f.kind === 'leak' &&
      isOpen(f) &&
      f.where.place !== undefined &&
      isBrakes(f.where.place) &&
      !back.has(f.id) &&
      !faults.some((g) => g.status === 'shown mended' && g.explains.includes(f.id)),
  )

function noneLeft({ now, asFound, work, repair }: PageOneInput): TextKey {
  const state = work.onRecord ? now : asFound
  if (state.class !== 'in order') return 'page.next.none-open'
  return work.onRecord && repair.verdict === 'not checked' ? 'page.next.none-now' : 'page.next.none'
}
