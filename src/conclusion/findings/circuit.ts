import { limit } from '../../limits/limits.ts'
import { median } from '../../maths/median.ts'
import { shownAs } from '../../verdicts/kinds/index.ts'
import type { Size } from '../finding.ts'
import type { Seen, SeenCylinder } from '../seen.ts'
import { burnFinding, burnGroups, farthest, type BurnGroup } from './burns.ts'
import type { FindingReader } from './reader.ts'
import { byDirection, inWords } from './saying.ts'

/** The ignition circuit outside the cylinder: open, or with resistance where none belongs. */
export const circuit: FindingReader = {
  kind: 'circuit',
  side: 'captures',
  makes: 'fault',
  newAfter: 'worse',
  directions: ['open', 'resistance'],
  role: 'names',
  byCylinder: true,
  shift: undefined,
  read: (seen) =>
    burnGroups(seen).flatMap((group) =>
      [...shownAs('circuit')].flatMap(([direction, verdicts]) => {
        const of = group.cylinders.filter((c) => verdicts.includes(c.verdict))
        return of.length === 0
          ? []
          : [
              burnFinding(seen, group, {
                kind: 'circuit',
                of,
                direction,
                size: direction === 'open' ? missesOf(seen, of) : startOf(seen, group, of),
              }),
            ]
      }),
    ),
  short: byDirection({ open: 'headline.found.open' }, 'headline.found.resistance'),
  plain: inWords((f) => (f.direction === 'open' ? 'open' : 'resistance')),
  figure: (f) => (f.direction === 'open' ? 'page.sure.misses' : 'page.sure.start'),
  again: 'page.again.mixture',
}

/** Turns without a spark, of all. */
function missesOf({ limits }: Seen, of: readonly SeenCylinder[]): Size | undefined {
  const shares = of.flatMap((c) => c.missesPct ?? [])
  const value = Math.max(...shares)
  return shares.length === 0
    ? undefined
    : {
        value,
        low: value,
        high: value,
        unit: '%',
        limitLow: undefined,
        limitHigh: limit(limits, 'openNoLineSharePct'),
      }
}

/** How far the line starts above the other cylinders', %; nothing where they all have the fault. */
function startOf({ limits }: Seen, group: BurnGroup, of: readonly SeenCylinder[]): Size | undefined {
  const others = group.cylinders.flatMap(({ cylinder, figures: { startKv } }) =>
    startKv.ok && !of.some((c) => c.cylinder === cylinder) ? [startKv.value] : [],
  )
  const middle = median(others)
  if (middle === undefined || middle <= 0) return undefined
  const pct = (kv: number) => 100 * (kv / middle - 1)
  return farthest(
    of.map(({ figures: { startKv } }) =>
      startKv.ok
        ? {
            value: pct(startKv.value),
            low: pct(startKv.low),
            high: pct(startKv.high),
            unit: '%',
            limitLow: undefined,
            limitHigh: limit(limits, 'externalStartExcessPct'),
          }
        : undefined,
    ),
  )
}
