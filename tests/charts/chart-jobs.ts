import { chartsOf } from '../../src/charts/charts-of.ts'
import type { ChartPlan } from '../../src/charts/chart-plan.ts'
import type { Result } from '../../src/records/result.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import type { Texts } from '../../src/texts/messages.ts'
import { sampleDrawn, type SampleDrawn } from '../support/sample-drawn.ts'
import { smallResult, type SmallJob } from './small-result.ts'

const english = loadTexts('en')
/** The shipped texts, and names for the causes invented here. */
export const texts: Texts = {
  ...english,
  templates: {
    ...english.templates,
    'cause.one': 'A leak at an intake runner joint',
    'cause.other': 'Low fuel pressure',
  },
}

const LONG_PLACE =
  'joint between the intake runner and the cylinder head at cylinder 1, upper and lower bolt, from the firewall side'
const PLACES = [
  LONG_PLACE,
  'brake servo hose',
  'Dichtung am Saugrohr hinter dem Luftmassenmesser (Öffnung für die Kurbelgehäuseentlüftung)',
  'прокладка впускного коллектора',
  'awordwithoutanyspacethatgoesonandonuntiltheendofthecolumnandwellbeyondit',
  'throttle body',
]
const FINDINGS = ['no response', 'response', 'unclear'] as const

export const sprays = (count: number): { place: string; finding: string }[] =>
  Array.from({ length: count }, (_, i) => ({
    place: `${PLACES[i % PLACES.length]!}${i >= PLACES.length ? ` ${i}` : ''}`,
    finding: FINDINGS[i % 3]!,
  }))

const causes = [
  {
    id: 'one',
    place: LONG_PLACE,
    probability: 0.72,
    name: { key: 'cause.one', args: {}, text: '' },
    for: [],
    against: [],
  },
  {
    id: 'other',
    place: null,
    probability: 0.28,
    name: { key: 'cause.other', args: {}, text: '' },
    for: [],
    against: [],
  },
]

export interface Job {
  small?: SmallJob
  drawn?: SampleDrawn
  causes?: boolean
  crowded?: boolean
}

/** Charts of an invented job. `crowded`: sprays so close that their numbers cannot stand in one row. */
export function plansOf(
  { small = {}, drawn = {}, causes: withCauses = false, crowded = false }: Job,
  said = texts,
): ChartPlan[] {
  const result: Result = { ...smallResult(small), ...(withCauses ? { causes } : {}) }
  const traces = sampleDrawn({
    cylinders: small.cylinders ?? 6,
    stages: small.stages ?? ['before', 'after'],
    events: 6,
    ...drawn,
  })
  const squeeze = (s: (typeof traces.speeds)[number]) => ({
    ...s,
    sprays: s.sprays.map((p, i) => ({ ...p, fromS: 20 + 2 * i, toS: 21 + 2 * i })),
  })
  return chartsOf(result, crowded ? { ...traces, speeds: traces.speeds.map(squeeze) } : traces, said)
}

const ALL_VERDICTS = {
  1: 'not judged',
  2: 'low compression',
  3: 'external resistance',
  4: 'misfiring',
  5: 'lean',
  6: 'borderline',
  7: 'rich',
  8: 'open secondary',
  9: 'falling',
} as const

/** Jobs of every shape a chart must hold. */
export const JOBS: readonly (readonly [string, Job])[] = [
  [
    '4 cylinders, 1 spray',
    {
      small: { cylinders: 4, verdicts: { 3: 'lean' }, risesPct: { 3: 55 } },
      drawn: { rises: { 3: 0.8 }, sprays: sprays(1) },
    },
  ],
  ['6 cylinders, 3 sprays', { drawn: { sprays: sprays(3) } }],
  [
    '6 cylinders, before only, no spray, causes',
    { small: { stages: ['before'] }, drawn: { sprays: [] }, causes: true },
  ],
  [
    '8 cylinders, every kind of verdict',
    {
      small: {
        cylinders: 8,
        verdicts: ALL_VERDICTS,
        risesPct: { 2: -40, 5: 84, 6: 17, 7: -33 },
        absent: [1, 8],
      },
    },
  ],
  [
    '12 cylinders, 12 sprays',
    {
      small: {
        cylinders: 12,
        verdicts: ALL_VERDICTS,
        risesPct: { 2: -40, 5: 84, 6: 17, 7: -33, 9: -60 },
        absent: [1, 8],
      },
      drawn: { sprays: sprays(12) },
    },
  ],
  ['12 sprays close together', { drawn: { sprays: sprays(12) }, crowded: true }],
  [
    'all cylinders lean',
    {
      small: {
        cylinders: 4,
        verdicts: { 1: 'lean', 2: 'lean', 3: 'lean', 4: 'lean' },
        risesPct: { 1: 40, 2: 45, 3: 50, 4: 44 },
      },
    },
  ],
]
