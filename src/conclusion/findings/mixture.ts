import { sentence } from '../../texts/messages.ts'
import type { Says } from '../../test-log/findings.ts'
import { limit } from '../../limits/limits.ts'
import type { Verdict } from '../../verdicts/kinds/define-verdict.ts'
import { isJudged, ORDER, shownAs } from '../../verdicts/kinds/index.ts'
import type { JobFinding } from '../finding.ts'
import type { Seen, SeenCylinder } from '../seen.ts'
import { burnFinding, burnGroups, farthest, figureSize, type BurnGroup } from './burns.ts'
import { isMisfireUnsure } from './misfire.ts'
import { overSwing, swingEndOf } from './over-swing.ts'
import type { FindingReader } from './reader.ts'
import { FALL, inWords, measureOf } from './saying.ts'

/** In the order they are told. */
const DIRECTIONS = ['lean', 'rich', 'falling'] as const

const SHORT = {
  lean: 'headline.found.lean',
  rich: 'headline.found.rich',
  falling: 'headline.found.falling',
} as const
const RISE = { limit: 'page.sure.rise', fellows: 'page.sure.rise-fellows' } as const
const SHORT_OVER_SWING = {
  'speed low': { lean: 'headline.found.lean-low', falling: 'headline.found.falling-low' },
  'speed high': { lean: 'headline.found.lean-high', falling: 'headline.found.falling-high' },
} as const
const PLAIN_OVER_SWING = {
  'speed low': { lean: 'page.found.lean-low', falling: 'page.found.falling-low' },
  'speed high': { lean: 'page.found.lean-high', falling: 'page.found.falling-high' },
} as const
const side = (f: JobFinding): 'lean' | 'falling' => (f.direction === 'lean' ? 'lean' : 'falling')
const NEAR = { lean: 'headline.found.lean-near', falling: 'headline.found.falling-near' } as const

/** How the cylinders burn by the late rise of their spark lines: lean, falling, rich, level, at the limit, or not judged. */
export const mixture: FindingReader = {
  kind: 'mixture',
  side: 'captures',
  makes: 'fault',
  newAfter: 'worse',
  directions: DIRECTIONS,
  role: 'names',
  byCylinder: true,
  shift: 'lateRisePct',
  read: (seen) => burnGroups(seen).flatMap((group) => ofGroup(seen, group)),
  short: (f) => {
    const end = swingEndOf(f)
    if (end) return SHORT_OVER_SWING[end][side(f)]
    return f.order === 'unsure' ? NEAR[side(f)] : SHORT[f.direction as keyof typeof SHORT]
  },
  plain: (f) => {
    const end = swingEndOf(f)
    return end
      ? PLAIN_OVER_SWING[end][side(f)]
      : inWords(() => (f.order === 'unsure' ? 'near' : (f.direction as keyof typeof SHORT)))(f)
  },
  figure: (f) => (f.direction === 'lean' ? RISE : FALL)[measureOf(f)],
  again: 'page.again.mixture',
}

function ofGroup(seen: Seen, group: BurnGroup): JobFinding[] {
  const edge = limit(seen.limits, 'lateRisePct')
  const sizes = (of: readonly SeenCylinder[]) =>
    farthest(of.map((c) => figureSize(c.figures.lateRisePct, { low: -edge, high: edge })))
  const standing = (order: Verdict['order']) => group.cylinders.filter((c) => ORDER[c.verdict] === order)
  const atLimit = standing('unsure').filter((c) => !isMisfireUnsure(c))
  const taken = new Set<SeenCylinder>()
  const shown = shownAs('mixture')
  const odd = DIRECTIONS.flatMap((direction) => {
    const verdicts = shown.get(direction) ?? []
    const own = group.cylinders.filter((c) => verdicts.includes(c.verdict))
    if (own.length === 0) return []
    const joined = joins(
      seen,
      group,
      own,
      atLimit.filter((c) => leansTo(c) === (direction === 'lean' ? 1 : -1)),
    )
    joined.forEach((c) => taken.add(c))
    return [
      burnFinding(seen, group, {
        kind: 'mixture',
        of: [...own, ...joined],
        direction,
        size: sizes(own),
        unsure: joined.map((c) => c.cylinder),
      }),
    ]
  })
  const steady = standing('in order')
  const swinging = overSwing(seen, group, [...steady, ...atLimit.filter((c) => !taken.has(c))])
  const told = new Set(swinging.flatMap((f) => f.where.cylinders))
  const left = atLimit.filter((c) => !taken.has(c) && !told.has(c.cylinder))
  const leaning = ([1, -1] as const).flatMap((side) => {
    const of = left.filter((c) => leansTo(c) === side)
    return of.length === 0
      ? []
      : [
          burnFinding(seen, group, {
            kind: 'mixture',
            of,
            direction: side === 1 ? 'lean' : 'falling',
            size: sizes(of),
            order: 'unsure',
            sure: 'leaning',
          }),
        ]
  })
  const level = steady.filter((c) => !told.has(c.cylinder))
  return [
    ...odd,
    ...swinging,
    ...leaning,
    ...(level.length === 0
      ? []
      : group.engine === 'cold'
        ? [notKnown(seen, group, level, sentence('conclusion.cold-level'))]
        : [burnFinding(seen, group, { kind: 'mixture', of: level, direction: 'none', size: sizes(level) })]),
    ...unjudged(seen, group, standing('not known')),
  ]
}

const leansTo = ({ figures: { lateRisePct } }: SeenCylinder): 1 | -1 =>
  lateRisePct.ok && lateRisePct.value < 0 ? -1 : 1

/**
 * Cylinders at the limit that belong to the pattern the others make: where with them it is every judged cylinder, or
 * every one of a bank, and half of it or more is plainly odd.
 */
function joins(
  { banks }: Seen,
  { cylinders }: BurnGroup,
  own: readonly SeenCylinder[],
  near: readonly SeenCylinder[],
): SeenCylinder[] {
  const judged = cylinders.filter((c) => isJudged(c.verdict))
  const wholes = [
    judged,
    ...Object.values(banks ?? {}).map((of) => judged.filter((c) => of.includes(c.cylinder))),
  ]
  const whole = wholes.find(
    (of) =>
      own.every((c) => of.includes(c)) &&
      of.every((c) => own.includes(c) || near.includes(c)) &&
      own.length > 1 &&
      2 * own.length >= of.length,
  )
  return whole ? near.filter((c) => whole.includes(c)) : []
}

/** Cylinders that could not be judged, those of one reason together. */
function unjudged(seen: Seen, group: BurnGroup, cylinders: readonly SeenCylinder[]): JobFinding[] {
  const reasons = [...new Set(cylinders.map((c) => JSON.stringify(c.reason)))]
  return reasons.map((reason) => {
    const of = cylinders.filter((c) => JSON.stringify(c.reason) === reason)
    return notKnown(seen, group, of, of[0]!.reason)
  })
}

const notKnown = (seen: Seen, group: BurnGroup, of: readonly SeenCylinder[], why: Says): JobFinding =>
  burnFinding(seen, group, {
    kind: 'mixture',
    of,
    direction: 'none',
    order: 'not known',
    sure: 'not judged',
    why,
  })
