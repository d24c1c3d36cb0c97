import { K95 } from '../maths/normal.ts'
import { betweenGroups } from '../maths/between-groups.ts'
import type { Unit } from '../units/measured.ts'
import { isLeftOut } from './cycle-speeds.ts'
import type { CylinderMeasures, CylinderSummaries, FigureName, MeasuredEvent, Summary } from './figures.ts'
import { summarise, type SummaryAbout } from './summarise.ts'

/** One cylinder in one of several captures that are taken together. */
export interface PoolMember {
  events: readonly MeasuredEvent[]
  measures: CylinderMeasures
}

/** Put between captures, s, so that no event of one is the neighbour of another's. */
const APART_S = 3600

/**
 * One cylinder over several captures of one stage and condition: its events together, and in every interval what
 * differs from capture to capture besides. Turns are counted in each capture by itself.
 *
 * @param about  `capture` names the pool
 */
export function poolCylinder(
  members: readonly PoolMember[],
  about: SummaryAbout & { cylinder: number },
): CylinderMeasures {
  const { cylinder } = about
  const own = members.map(({ events }) => events.filter((e) => e.cylinder === cylinder))
  const apart = own.flatMap((events, k) =>
    events.map((e) => ({ ...e, breakdownS: e.breakdownS + k * APART_S })),
  )
  const [all] = summarise(apart, { ...about, cylinders: [cylinder] })
  const total = (count: (m: CylinderMeasures) => number | undefined): number =>
    members.reduce((sum, { measures }) => sum + (count(measures) ?? 0), 0)
  return {
    ...all!,
    missing: total((m) => m.missing),
    figures: Object.fromEntries(
      Object.entries(all!.figures).map(([name, summary]) => [
        name,
        withBetween(
          summary,
          own.map((events) => valuesOf(events, name as FigureName)),
        ),
      ]),
    ) as CylinderSummaries,
  }
}

const valuesOf = (events: readonly MeasuredEvent[], name: FigureName): number[] =>
  events.flatMap((event) => {
    const figure = event.figures[name]
    const counts = event.kind === 'firing' && !event.flags.includes('partial') && !isLeftOut(event)
    return figure.ok && counts ? [figure.value] : []
  })

/** The interval with what differs between the captures. */
function withBetween<U extends Unit>(summary: Summary<U>, groups: readonly number[][]): Summary<U> {
  if (!summary.ok) return summary
  const half = betweenGroups(groups)
  if (half === 0) return summary
  const { value, low, high } = summary
  return {
    ...summary,
    low: value - Math.hypot(value - low, half),
    high: value + Math.hypot(high - value, half),
    budget: [...summary.budget, { source: 'captures', u: half / K95 }],
  }
}
