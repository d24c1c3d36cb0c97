import type { EvidenceKind } from '../../limits/keys.ts'
import { limit, type Limits } from '../../limits/limits.ts'
import type { Measured } from '../../units/measured.ts'
import { APART_FIGURES, type ApartFigure, type ApartFinding } from '../apart/apart-finding.ts'
import { FAMILY, isJudged, ORDER } from '../kinds/index.ts'
import { seatOf } from '../pattern.ts'
import type { VerdictName } from '../verdict-names.ts'
import type { EngineLayout } from './engine-layout.ts'
import { observe, type Observation } from './observation.ts'

/** What the captures before the repair show of one cylinder. */
interface BurnPicture {
  cylinder: number
  verdict: VerdictName
  /** Firing voltage, burn time or oscillations apart, as its verdict says them. */
  apart: readonly ApartFinding[]
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
    ...apart(picture.cylinders),
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

/** What a figure apart is called as evidence: on some cylinders beside the others, beyond what is usual on some, or on all. */
interface ApartKinds {
  beside: EvidenceKind
  unusual?: EvidenceKind
  all?: EvidenceKind
}

/** More oscillations than usual are no fault and are never found apart. */
const APART_KINDS: Readonly<
  Record<ApartFigure, Readonly<Partial<Record<ApartFinding['direction'], ApartKinds>>>>
> = {
  firing_kv: {
    high: { beside: 'firing-high', unusual: 'firing-some-high', all: 'firing-all-high' },
    low: { beside: 'firing-low', unusual: 'firing-some-low', all: 'firing-all-low' },
  },
  burn_ms: {
    high: { beside: 'burn-time-long', unusual: 'burn-time-some-long', all: 'burn-time-all-long' },
    low: { beside: 'burn-time-short', unusual: 'burn-time-some-short', all: 'burn-time-all-short' },
  },
  coil_cycles: { low: { beside: 'oscillations-few' } },
}

/** All that a figure apart may be weighed as. */
export const apartEvidence = (figure: ApartFigure): EvidenceKind[] =>
  Object.values(APART_KINDS[figure]).flatMap((kinds) => Object.values(kinds) as EvidenceKind[])

/** Fewer cylinders do not make a set. */
const LEAST_OF_A_SET = 3

/**
 * What stands apart beside the mixture, as the table of verdicts says it and by no rule of its own. Where every cylinder
 * lies beyond what is usual on one side it speaks of what they share or of what wears as a set; one that stands beside
 * its fellows as well speaks of itself too.
 */
function apart(cylinders: readonly BurnPicture[]): Observation[] {
  return APART_FIGURES.flatMap((figure) =>
    (['high', 'low'] as const).flatMap((direction) => {
      const kinds = APART_KINDS[figure][direction]
      if (!kinds) return []
      const bearing = (against?: ApartFinding['against']) =>
        cylinders
          .filter((c) =>
            c.apart.some(
              (a) =>
                a.figure === figure &&
                a.direction === direction &&
                (against === undefined || a.against === against),
            ),
          )
          .map((c) => c.cylinder)
      const unusual = bearing('usual')
      const all =
        unusual.length > 0 && cylinders.length >= LEAST_OF_A_SET && bearing().length === cylinders.length
      return [
        ...at(kinds.beside, bearing('fellows')),
        ...(all && kinds.all ? [observe(kinds.all)] : []),
        ...(!all && kinds.unusual ? at(kinds.unusual, unusual) : []),
      ]
    }),
  )
}

const at = (kind: EvidenceKind, cylinders: readonly number[]): Observation[] =>
  cylinders.length === 0
    ? []
    : [observe(kind, { at: { kind: 'cylinders', cylinders }, args: { cylinders: cylinders.join(', ') } })]

function idleSwing(swing: Measured<'rpm'>, limits: Limits): Observation[] {
  return swing.ok && swing.value - 2 * swing.u > limit(limits, 'idleSwingRpm') ? [observe('idle-swings')] : []
}
