import type { LogEntry } from '../entry.ts'
import { partState } from '../outcome-words.ts'
import { cylinderReadings, type StepKind } from '../step-kind.ts'
import { againstExpected } from '../test-group.ts'
import { partOutcomes, readParts, type PartReader } from './part.ts'

const outcomes = partState(
  {
    fouled: [
      'foul*',
      'wet',
      'black',
      'soot*',
      'oily',
      'oil',
      'carbon*',
      'crack*',
      'flash*',
      'tracking',
      'tracked',
      'verrusst',
      'russ*',
      'nass',
      'schwarz',
      'olig',
      'gerissen',
      'encrass*',
      'mouille*',
      'noir*',
      'huileu*',
      'fendu*',
      'suci*',
      'mojad*',
      'negr*',
      'aceit*',
      'agrietad*',
      'rajad*',
      'fuel wet',
    ],
    worn: [
      'worn',
      'wide',
      'wide gap',
      'gap wide',
      'gap large',
      'gapped wide',
      'electrodes round',
      'round*',
      'eroded',
      'burnt',
      'old',
      'overdue',
      'out',
      'out of spec',
      'verschlissen',
      'abgebrannt',
      'abstand gross',
      'gross',
      'use*',
      'usee*',
      'ecartement grand',
      'arrondi*',
      'gastad*',
      'separacion grande',
      'redond*',
    ],
  },
  {
    fine: [
      'tan',
      'light brown',
      'rehbraun',
      'brun clair',
      'marron claro',
      'as the others',
      'like the others',
    ],
    together: ['fouled', 'worn'],
  },
)

/** A gap against the maker's limits; a gap without them says nothing by itself. */
const byFigure = (row: LogEntry): 'worn' | 'in order' | undefined => {
  const own = againstExpected(row)
  return own === undefined ? undefined : own === 'in limits' ? 'in order' : 'worn'
}

const reader: PartReader<'worn' | 'fouled' | 'in order'> = {
  outcomes,
  byFigure: (row) => (row.outcome === undefined ? byFigure(row) : undefined),
  states: {
    worn: { says: 'tests.plugs.worn', evidence: 'plug-seen-worn', finding: 'out of limits' },
    fouled: { says: 'tests.plugs.fouled', evidence: 'plug-seen-fouled', finding: 'out of limits' },
    'in order': { says: 'tests.plugs.in-order', evidence: 'plug-seen-in-order', finding: 'in limits' },
  },
  recorded: 'tests.plugs.recorded',
}

/** Plugs taken out, read and gapped; a row without a cylinder speaks of the whole set. @source shop-practice */
export const plugs: StepKind = {
  title: 'report.step.plugs',
  needs: {},
  readings: cylinderReadings(['mm', 'in']),
  neverNegative: true,
  usual: [
    { unit: 'mm', least: 0.2, most: 3 },
    { unit: 'in', least: 0.008, most: 0.12 },
  ],
  outcome: partOutcomes(reader, ['worn', 'fouled', 'in order']),
  evidence: ['plug-seen-worn', 'plug-seen-fouled', 'plug-seen-in-order'],
  cautions: ['high-voltage', 'hot'],
  read: (group, context) => readParts(group, context, reader),
}
