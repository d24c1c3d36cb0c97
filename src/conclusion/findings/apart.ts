import { limit } from '../../limits/limits.ts'
import type { FigureName } from '../../metrics/figures.ts'
import type { ApartFigure, ApartFinding } from '../../verdicts/apart/apart-finding.ts'
import type { JobFinding, Size } from '../finding.ts'
import type { Seen, SeenCylinder } from '../seen.ts'
import type { FindingKind } from '../words.ts'
import { burnFinding, burnGroups, farthest, figureSize } from './burns.ts'

/** A figure beside the mixture: where it stands in the records, and what is usual of it, by keys of the limits. */
interface Beside {
  kind: FindingKind
  apart: ApartFigure
  figure: FigureName
  usual?: { low: string; high: string }
}

/** Cylinders that stand apart in one figure, those of one side together: from their fellows, or from what is usual. */
export function standingApart(seen: Seen, it: Beside): JobFinding[] {
  return burnGroups(seen).flatMap((group) =>
    (['high', 'low'] as const).flatMap((direction) => {
      const of = group.cylinders.filter((c) => apartIn(c, it, direction) !== undefined)
      return of.length === 0
        ? []
        : [
            burnFinding(seen, group, {
              kind: it.kind,
              of,
              direction,
              basis: of.some((c) => apartIn(c, it, direction)!.against === 'usual') ? 'limit' : 'fellows',
              size: farthest(of.map((c) => sizeOf(seen, c, { it, direction }))),
            }),
          ]
    }),
  )
}

const apartIn = (
  { apart }: SeenCylinder,
  it: Beside,
  direction: ApartFinding['direction'],
): ApartFinding | undefined => apart.find((a) => a.figure === it.apart && a.direction === direction)

/** The figure itself where it was held against what is usual; else its distance from the fellows. */
function sizeOf(
  { limits }: Seen,
  cylinder: SeenCylinder,
  { it, direction }: { it: Beside; direction: ApartFinding['direction'] },
): Size | undefined {
  const found = apartIn(cylinder, it, direction)!
  if (found.against === 'usual' && it.usual)
    return figureSize(cylinder.figures[it.figure], {
      low: limit(limits, it.usual.low),
      high: limit(limits, it.usual.high),
    })
  return { ...found.size, limitLow: undefined, limitHigh: undefined }
}
