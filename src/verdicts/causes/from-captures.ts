import type { EvidenceKind } from '../../limits/keys.ts'
import { limit, type Limits } from '../../limits/limits.ts'
import type { Measured } from '../../units/measured.ts'
import type { Available } from '../evidence.ts'
import { FAMILY, isJudged, ORDER } from '../kinds/index.ts'
import { seatOf } from '../pattern.ts'
import type { VerdictName } from '../verdict-names.ts'
import type { EngineLayout } from './engine-layout.ts'
import { observe, type Observation } from './observation.ts'

/** What the captures before the repair show of one cylinder. */
interface BurnPicture {
  cylinder: number
  verdict: VerdictName
  firingExcessKv: Available
  /** At idle, where the pickup's ratio is known. */
  firingKv: Available
}

/** What the captures before the repair show; without captures, no cylinders. */
export interface CapturePicture {
  cylinders: readonly BurnPicture[]
  swing: Measured<'rpm'>
}

/** Observations from the captures taken before the repair. */
export function fromCaptures(picture: CapturePicture, engine: EngineLayout, limits: Limits): Observation[] {
  return [
    ...burns(picture.cylinders, engine),
    ...firingVoltages(picture.cylinders, limits),
    ...allFiringHigh(picture.cylinders, limits),
    ...idleSwing(picture.swing, limits),
  ]
}

/** One observation for each kind of fault: where on the engine the cylinders that bear it lie. */
function burns(all: readonly BurnPicture[], engine: EngineLayout): Observation[] {
  const judged = all.filter((c) => isJudged(c.verdict))
  const families = [...new Set(judged.flatMap((c) => FAMILY[c.verdict] ?? []))]
  if (judged.length > 0 && judged.every((c) => ORDER[c.verdict] === 'in order'))
    return [observe('burn-level', { args: { judged: judged.length } })]
  return families.map((family) => {
    const odd = judged.filter((c) => FAMILY[c.verdict] === family)
    const unsure = judged.filter((c) => ORDER[c.verdict] === 'unsure')
    // A few that are merely unsure do not break the pattern the others make.
    const clear =
      odd.length > 1 && odd.length > unsure.length ? judged.filter((c) => !unsure.includes(c)) : judged
    const seat = seatOf(
      odd.map((c) => c.cylinder),
      clear.map((c) => c.cylinder),
      engine.banks,
    )
    return observe(family.weighs[seat.scope], {
      at:
        seat.scope === 'bank' && family.weighs.bank !== family.weighs.some
          ? { kind: 'bank', bank: seat.bank }
          : { kind: 'cylinders', cylinders: seat.cylinders },
      args: { cylinders: seat.cylinders.join(', ') },
    })
  })
}

/** One cylinder whose firing voltage stands apart from the others', and only where it is one: several are no outlier. */
function firingVoltages(cylinders: readonly BurnPicture[], limits: Limits): Observation[] {
  const apart = limit(limits, 'firingApartKv')
  const excess = cylinders.flatMap((c) =>
    c.firingExcessKv.ok ? [{ cylinder: c.cylinder, ...c.firingExcessKv.interval }] : [],
  )
  const say = (kind: EvidenceKind, odd: typeof excess) =>
    odd.length !== 1
      ? []
      : [
          observe(kind, {
            at: { kind: 'cylinders', cylinders: [odd[0]!.cylinder] },
            args: { cylinders: String(odd[0]!.cylinder) },
          }),
        ]
  return [
    ...say(
      'firing-high',
      excess.filter((e) => e.low > apart),
    ),
    ...say(
      'firing-low',
      excess.filter((e) => e.high < -apart),
    ),
  ]
}

/** Fewer cylinders do not make a set. */
const LEAST_OF_A_SET = 3

/** Every cylinder needs more than is usual at idle: what they share, or what is fitted and wears as a set. */
function allFiringHigh(cylinders: readonly BurnPicture[], limits: Limits): Observation[] {
  const most = limit(limits, 'firingUsualHighKv')
  const known = cylinders.flatMap((c) => (c.firingKv.ok ? [c.firingKv.interval] : []))
  const all = known.length >= LEAST_OF_A_SET && known.length === cylinders.length
  return all && known.every((kv) => kv.low > most) ? [observe('firing-all-high')] : []
}

function idleSwing(swing: Measured<'rpm'>, limits: Limits): Observation[] {
  return swing.ok && swing.value - 2 * swing.u > limit(limits, 'idleSwingRpm') ? [observe('idle-swings')] : []
}
