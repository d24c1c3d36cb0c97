import { shownAs } from '../../verdicts/kinds/index.ts'
import { burnFinding, burnGroups, farthest, figureSize } from './burns.ts'
import type { FindingReader } from './reader.ts'

/** The ignition circuit outside the cylinder: open, or with resistance where none belongs. */
export const circuit: FindingReader = {
  kind: 'circuit',
  side: 'captures',
  makes: 'fault',
  repair: { back: 'cylinder figure', newAfter: 'worse' },
  directions: ['open', 'resistance'],
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
                size: farthest(of.map((c) => figureSize(c.figures.startKv))),
              }),
            ]
      }),
    ),
}
