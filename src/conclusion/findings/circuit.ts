import type { VerdictName } from '../../verdicts/verdict-names.ts'
import type { Direction } from '../words.ts'
import { burnFinding, burnGroups, farthest, figureSize } from './burns.ts'
import type { FindingReader } from './reader.ts'

const DIRECTIONS = {
  'open secondary': 'open',
  'external resistance': 'resistance',
} as const satisfies Partial<Record<VerdictName, Direction>>

/** The ignition circuit outside the cylinder: open, or with resistance where none belongs. */
export const circuit: FindingReader = {
  kind: 'circuit',
  side: 'captures',
  makes: 'fault',
  repair: { back: 'cylinder figure', newAfter: 'worse' },
  directions: ['open', 'resistance'],
  read: (seen) =>
    burnGroups(seen).flatMap((group) =>
      (Object.keys(DIRECTIONS) as (keyof typeof DIRECTIONS)[]).flatMap((verdict) => {
        const of = group.cylinders.filter((c) => c.verdict === verdict)
        return of.length === 0
          ? []
          : [
              burnFinding(seen, group, {
                kind: 'circuit',
                of,
                direction: DIRECTIONS[verdict],
                size: farthest(of.map((c) => figureSize(c.figures.startKv))),
              }),
            ]
      }),
    ),
}
