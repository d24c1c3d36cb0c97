import { placeArg } from '../texts/place-words.ts'
import { CAUSE_WORDS } from '../verdicts/causes/cause-kinds.ts'
import { sentence } from '../texts/messages.ts'
import type { Arg, KeyNeeding } from '../texts/messages.ts'
import type { Says } from '../test-log/findings.ts'
import type { Fault, HeadlinePart, RepairConclusion } from './conclusion.ts'
import type { EngineState } from './conclusion.ts'
import type { NamedFinding } from './finding.ts'
import { FINDINGS } from './findings/index.ts'
import { shortSays } from './say-finding.ts'
import { isOpen } from './states.ts'
import type { StandingWord } from './words.ts'
import type { Work } from './work.ts'

/** Whether a finding says by itself what is wrong; the others are its signs, and speak where none of these does. */
export const namesIt = ({ kind }: NamedFinding): boolean => FINDINGS[kind].role !== 'sign'
/** A figure beside the mixture: on a cylinder that bears a verdict it is a sign of what that says. */
const isBeside = ({ kind }: NamedFinding): boolean => FINDINGS[kind].role === 'beside'
const MOST_FOUND = 3

interface HeadlineInput {
  findings: readonly NamedFinding[]
  asFound: EngineState
  now: EngineState
  faults: readonly Fault[]
  repair: RepairConclusion
  work: Work
}

/** What and where, why, and whether it is mended. */
export function headlineOf(input: HeadlineInput): HeadlinePart[] {
  const found = input.findings.filter((f) => f.state === 'as found')
  return [
    ...foundParts(found, input).map((says) => ({ part: 'found' as const, says })),
    ...onceEach(causeParts(input.asFound.class === 'in order' ? [] : input.faults)).map((says) => ({
      part: 'cause' as const,
      says,
    })),
    ...mendedParts(input).map((says) => ({ part: 'mended' as const, says })),
  ]
}

/** Sentences that say the same thing, such as two faults of one cause that is not sure, are said once. */
export const onceEach = (all: readonly Says[]): Says[] => [
  ...new Map(all.map((one) => [JSON.stringify(one), one])).values(),
]

/** The findings that name what is wrong, worst first; one said by a stronger one on the same cylinders is left out. */
export function leadingFindings(found: readonly NamedFinding[]): NamedFinding[] {
  const open = found.filter(isOpen)
  const sure = open.filter((f) => f.order === 'out of order' && namesIt(f))
  const carrying = sure.length ? sure : open.filter(namesIt)
  const signs = open.filter((f) => f.kind !== 'code')
  const pool = carrying.length ? carrying : signs.length ? signs : open
  const within = (f: NamedFinding, g: NamedFinding) =>
    f.where.cylinders.length > 0 && f.where.cylinders.every((c) => g.where.cylinders.includes(c))
  const kept = pool.filter(
    (f, i) =>
      !pool.slice(0, i).some((g) => g.kind === f.kind && (within(f, g) || isRepeat(f, g))) &&
      !(isBeside(f) && pool.some((g) => !isBeside(g) && within(f, g))),
  )
  return kept.slice(0, MOST_FOUND)
}

/** The same said of the engine by another reading or in another condition (pressure at key-on and at idle). */
const isRepeat = (f: NamedFinding, g: NamedFinding): boolean =>
  f.kind === 'fuel-pressure' && f.direction === g.direction

function foundParts(found: readonly NamedFinding[], { asFound, work }: HeadlineInput): Says[] {
  const leading = leadingFindings(found).map(shortSays)
  const captured = found.some((f) => f.captures.length > 0)
  const notRecorded: Says[] = !captured && work.onRecord ? [sentence('headline.not-recorded')] : []
  if (leading.length) return [...notRecorded, ...leading]
  if (asFound.class === 'in order') return [sentence('headline.in-order')]
  return notRecorded.length ? notRecorded : [sentence('headline.not-judged')]
}

const CAUSE_SAYS: Readonly<
  Record<StandingWord, { at: KeyNeeding<{ cause: Arg; place: Arg }>; bare: KeyNeeding<{ cause: Arg }> }>
> = {
  clear: { at: 'headline.cause.clear-at', bare: 'headline.cause.clear' },
  leading: { at: 'headline.cause.leading-at', bare: 'headline.cause.leading' },
  'one of several': { at: 'headline.cause.several-at', bare: 'headline.cause.several' },
  open: { at: 'headline.cause.open', bare: 'headline.cause.open' },
}

/** What a cause is called. */
export const causeName = (cause: string) => sentence(CAUSE_WORDS[cause as keyof typeof CAUSE_WORDS])

const causeParts = (faults: readonly Fault[]): Says[] =>
  faults.map(({ cause, place, standing }): Says =>
    place === undefined
      ? sentence(CAUSE_SAYS[standing].bare, { cause: causeName(cause) })
      : sentence(CAUSE_SAYS[standing].at, { cause: causeName(cause), place: placeArg(place) }),
  )

function mendedParts({ repair, faults, findings, work, now }: HeadlineInput): Says[] {
  const left = repair.opposes.flatMap((id) => findings.find((f) => f.id === id) ?? [])
  const still = leadingFindings(left).map(shortSays)
  const before = leadingFindings(findings.filter((f) => f.state === 'as found'))
  const isSaid = (f: NamedFinding) =>
    before.some((g) => g.kind === f.kind && f.where.cylinders.every((c) => g.where.cylinders.includes(c)))
  switch (repair.verdict) {
    case 'repair confirmed':
      return [
        sentence(repair.restsOn === 'log' ? 'headline.repair.confirmed-log' : 'headline.repair.confirmed'),
      ]
    case 'improved, not in order':
      return [sentence('headline.repair.improved'), ...still]
    case 'no change':
      return [
        sentence('headline.repair.no-change'),
        ...leadingFindings(left.filter((f) => !isSaid(f))).map(shortSays),
      ]
    case 'worse':
      return [sentence('headline.repair.worse'), ...still]
    case 'not checked':
      if (!work.onRecord) return faults.length ? [sentence('headline.repair.none')] : []
      return now.class === 'in order'
        ? [sentence('headline.repair.now-in-order')]
        : [sentence('headline.repair.not-shown'), ...still]
  }
}
