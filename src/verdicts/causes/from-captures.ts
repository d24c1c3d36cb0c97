import { limit, type Limits } from '../../limits/limits.ts'
import type { Measured } from '../../units/measured.ts'
import type { Available } from '../evidence.ts'
import { enginePattern, FAMILY } from '../pattern.ts'
import type { VerdictName } from '../verdict-names.ts'
import type { EngineLayout } from './engine-layout.ts'
import { observe, type Observation } from './observation.ts'

/** What the captures before the repair show of one cylinder. */
export interface BurnPicture {
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
  const judged = all.filter((c) => c.verdict !== 'not judged')
  const families = [...new Set(judged.map((c) => FAMILY[c.verdict]).filter((f) => f !== undefined))]
  if (judged.length > 0 && judged.every((c) => c.verdict === 'level'))
    return [observe('burn-level', { args: { judged: judged.length } })]
  return families.map((family) => {
    const odd = judged.filter((c) => FAMILY[c.verdict] === family).length
    const unsure = judged.filter((c) => c.verdict === 'borderline').length
    // A few that are merely unsure do not break the pattern the others make.
    const clear = odd > 1 && odd > unsure ? judged.filter((c) => c.verdict !== 'borderline') : judged
    const alone = new Map(
      clear.map((c): [number, VerdictName] => [
        c.cylinder,
        FAMILY[c.verdict] === family ? c.verdict : 'level',
      ]),
    )
    const { pattern, cylinders } = enginePattern(alone, engine.banks)
    const scope = pattern.split(' ')[0]!
    const where =
      scope === 'mixed' || (scope === 'bank' && family !== 'lean' && family !== 'falling') ? 'some' : scope
    return observe(`burn-${where}-${family}`, {
      at:
        scope === 'bank' && where === 'bank'
          ? { kind: 'bank', bank: pattern.slice('bank '.length) }
          : { kind: 'cylinders', cylinders },
      args: { cylinders: cylinders.join(', ') },
    })
  })
}

/** One cylinder whose firing voltage stands apart from the others', and only where it is one: several are no outlier. */
function firingVoltages(cylinders: readonly BurnPicture[], limits: Limits): Observation[] {
  const apart = limit(limits, 'firingApartKv')
  const excess = cylinders.flatMap((c) =>
    c.firingExcessKv.ok ? [{ cylinder: c.cylinder, ...c.firingExcessKv.interval }] : [],
  )
  const say = (kind: string, odd: typeof excess) =>
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
