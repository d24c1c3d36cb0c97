import { limit } from '../../limits/limits.ts'
import { verdictOf } from '../../verdicts/kinds/index.ts'
import { misfireUnsure } from '../../verdicts/rules/misfire-unsure.ts'
import type { JobFinding } from '../finding.ts'
import type { Seen, SeenCylinder } from '../seen.ts'
import { burnFinding, burnGroups, type BurnGroup } from './burns.ts'
import type { FindingReader } from './reader.ts'
import { inWords } from './saying.ts'

/** Turns without a spark line in a circuit that is not open. */
export const misfire: FindingReader = {
  kind: 'misfire',
  side: 'captures',
  makes: 'fault',
  newAfter: 'worse',
  directions: ['missing'],
  role: 'names',
  byCylinder: true,
  shift: undefined,
  read: (seen) =>
    burnGroups(seen).flatMap((group) => {
      const sure = group.cylinders.filter((c) => verdictOf(c.verdict).shows?.kind === 'misfire')
      const near = group.cylinders.filter(isMisfireUnsure)
      if (sure.length > 0) return [missing(seen, group, sure, near)]
      return near.length > 0
        ? [{ ...missing(seen, group, near, []), order: 'unsure' as const, sure: 'leaning' as const }]
        : []
    }),
  short: () => 'headline.found.misfire',
  plain: inWords(() => 'missing'),
  figure: () => 'page.sure.misses',
  again: 'page.again.mixture',
}

/** More turns without a spark line than the limit, in too few turns to rule out chance. */
export const isMisfireUnsure = ({ rule }: SeenCylinder): boolean => rule === misfireUnsure.id

/** Cylinders that miss, those that may be missing too named with them. */
function missing(
  seen: Seen,
  group: BurnGroup,
  sure: readonly SeenCylinder[],
  near: readonly SeenCylinder[],
): JobFinding {
  const shares = sure.flatMap((c) => c.missesPct ?? [])
  const most = Math.max(...shares)
  return burnFinding(seen, group, {
    kind: 'misfire',
    of: [...sure, ...near],
    direction: 'missing',
    size: shares.length
      ? {
          value: most,
          low: most,
          high: most,
          unit: '%',
          limitLow: undefined,
          limitHigh: limit(seen.limits, 'misfireSharePct'),
        }
      : undefined,
    unsure: near.map((c) => c.cylinder),
  })
}
