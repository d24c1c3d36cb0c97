import { limit } from '../../limits/limits.ts'
import type { FigureName } from '../../metrics/figures.ts'
import type { JobFinding } from '../finding.ts'
import type { Seen, SeenCylinder } from '../seen.ts'
import type { FindingKind } from '../words.ts'
import { burnFinding, burnGroups, farthest, figureSize } from './burns.ts'

/** What is usual at an idle for one figure, by keys of the limits. */
interface Usual {
  kind: FindingKind
  figure: FigureName
  low: string
  high: string
  /** Whether this cylinder's figure may be held against them. */
  fit(cylinder: SeenCylinder): boolean
}

/** Cylinders whose figure lies wholly beyond what is usual at an idle, on either side; all of them may. */
export function beyondUsual(seen: Seen, { kind, figure, low, high, fit }: Usual): JobFinding[] {
  const usual = { low: limit(seen.limits, low), high: limit(seen.limits, high) }
  return burnGroups(seen)
    .filter(({ condition }) => condition === 'idle')
    .flatMap((group) => {
      const fitting = group.cylinders.filter((c) => fit(c) && c.figures[figure].ok)
      const side = (direction: 'high' | 'low') => {
        const of = fitting.filter(({ figures }) => {
          const f = figures[figure]
          return f.ok && (direction === 'high' ? f.low > usual.high : f.high < usual.low)
        })
        return of.length === 0
          ? []
          : [
              burnFinding(seen, group, {
                kind,
                of,
                direction,
                size: farthest(of.map((c) => figureSize(c.figures[figure], usual))),
              }),
            ]
      }
      return [...side('high'), ...side('low')]
    })
}
