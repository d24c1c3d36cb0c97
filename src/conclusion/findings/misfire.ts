import { limit } from '../../limits/limits.ts'
import { verdictOf } from '../../verdicts/kinds/index.ts'
import { burnFinding, burnGroups } from './burns.ts'
import type { FindingReader } from './reader.ts'

/** Turns without a spark line in a circuit that is not open. */
export const misfire: FindingReader = {
  kind: 'misfire',
  side: 'captures',
  makes: 'fault',
  repair: { back: 'cylinder figure', newAfter: 'worse' },
  directions: ['missing'],
  read: (seen) =>
    burnGroups(seen).flatMap((group) => {
      const of = group.cylinders.filter((c) => verdictOf(c.verdict).shows?.kind === 'misfire')
      const shares = of.flatMap((c) => c.missesPct ?? [])
      const most = Math.max(...shares)
      return of.length === 0
        ? []
        : [
            burnFinding(seen, group, {
              kind: 'misfire',
              of,
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
            }),
          ]
    }),
}
