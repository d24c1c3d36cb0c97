import { verdictOf } from '../../verdicts/kinds/index.ts'
import { limit } from '../../limits/limits.ts'
import { whereOf, type JobFinding, type Size } from '../finding.ts'
import type { Seen } from '../seen.ts'
import type { Interval } from '../../units/measured.ts'
import { findingStates, type Direction } from '../words.ts'
import { burnFinding, burnGroups, farthest, figureSize } from './burns.ts'
import { logFinding, rowsOf, sizeOf, type LogRow } from './log-rows.ts'
import type { FindingReader } from './reader.ts'
import { FALL, byDirection, inWords, measureOf } from './saying.ts'

const DIRECTIONS = { low: 'low', high: 'high', 'in order': 'none' } as const

/** Compression by the gauge, cylinder by cylinder; and lines that a reading turned into a verdict of low compression. */
export const compression: FindingReader = {
  kind: 'compression',
  side: 'log',
  makes: 'fault',
  newAfter: 'opposes',
  directions: ['low', 'high', 'low compression'],
  role: 'names',
  byCylinder: true,
  shift: undefined,
  read: (seen) => [
    ...findingStates.flatMap((state) =>
      ofState(
        seen,
        rowsOf(seen, 'compression').filter((row) => row.state === state),
      ),
    ),
    ...ofLines(seen),
  ],
  short: byDirection({ high: 'headline.found.compression-high' }, 'headline.found.compression-low'),
  plain: (f) =>
    f.direction === 'high' ? 'page.found.compression-high' : inWords(() => 'low compression')(f),
  figure: (f) =>
    f.direction === 'low compression'
      ? FALL[measureOf(f)]
      : f.size?.unit === '%'
        ? 'page.sure.compression'
        : 'page.sure.compression-kpa',
  again: 'page.again.compression',
}

/** One cylinder's newest reading, with the highest of its own test. */
interface Read {
  row: LogRow
  cylinder: number
  state: keyof typeof DIRECTIONS
  kpa: Interval | undefined
  highest: number
}

/** The newest reading of each cylinder, those of one side together. */
function ofState(seen: Seen, rows: readonly LogRow[]): JobFinding[] {
  const all = rows.flatMap((row): Read[] => {
    const { facts = [], computed } = row.test
    const read = facts.flatMap((f) => (f.kind === 'compression' ? [f] : []))
    const kpa = (cylinder: number) => computed[`cylinder${cylinder}Kpa`]
    const highest = Math.max(...read.map((f) => kpa(f.cylinder)?.value ?? 0))
    return read.map(({ cylinder, state }) => ({ row, cylinder, state, kpa: kpa(cylinder), highest }))
  })
  const newest = [...new Map(all.map((r) => [r.cylinder, r])).values()]
  return (['low', 'high', 'in order'] as const).flatMap((state) => {
    const of = newest.filter((r) => r.state === state)
    const lowest = [...of].sort((a, b) => (a.kpa?.value ?? 0) - (b.kpa?.value ?? 0))[0]
    return lowest
      ? [
          {
            ...logFinding(lowest.row, {
              kind: 'compression',
              where: whereOf(
                of.map((r) => r.cylinder),
                { all: seen.cylinders, banks: seen.banks },
              ),
              direction: DIRECTIONS[state],
              size: sizeFor(seen, lowest.kpa, lowest.highest),
            }),
            tests: [...new Set(of.map((r) => r.row.index))].sort((a, b) => a - b),
          },
        ]
      : []
  })
}

/** As a share of the highest where one was lower than the limit asks; else as read, the maker's limits being the ones. */
function sizeFor(seen: Seen, kpa: Interval | undefined, highest: number): Size | undefined {
  if (!kpa || highest <= 0) return undefined
  const least = limit(seen.limits, 'compressionSharePct')
  const share = (value: number) => (100 * value) / highest
  return share(kpa.value) < least
    ? {
        value: share(kpa.value),
        low: share(kpa.low),
        high: share(kpa.high),
        unit: '%',
        limitLow: least,
        limitHigh: undefined,
      }
    : sizeOf(kpa)
}

function ofLines(seen: Seen): JobFinding[] {
  const edge = limit(seen.limits, 'lateRisePct')
  return burnGroups(seen).flatMap((group) => {
    const of = group.cylinders.filter((c) => verdictOf(c.verdict).shows?.kind === 'compression')
    const direction: Direction = 'low compression'
    return of.length === 0
      ? []
      : [
          burnFinding(seen, group, {
            kind: 'compression',
            of,
            direction,
            size: farthest(of.map((c) => figureSize(c.figures.lateRisePct, { low: -edge, high: edge }))),
          }),
        ]
  })
}
