import { expect, test } from 'vitest'
import { loadLimits } from '../../../src/limits/limits.ts'
import { sentence } from '../../../src/texts/messages.ts'
import { absent } from '../../../src/units/measured.ts'
import type { ApartFinding } from '../../../src/verdicts/apart/apart-finding.ts'
import { fromCaptures } from '../../../src/verdicts/causes/from-captures.ts'
import { inline } from './case.ts'

const limits = loadLimits()

const finding = (
  figure: ApartFinding['figure'],
  direction: ApartFinding['direction'],
  against: ApartFinding['against'],
): ApartFinding => ({
  figure,
  direction,
  against,
  size: { value: 50, low: 40, high: 60, unit: '%' },
  limits: [],
  says: sentence('apart.oscillations-few', { cycles: 1, usual: 4 }),
})

/** Kinds of evidence with the cylinders they point at, from what stands apart on each cylinder. */
const seen = (...apart: ApartFinding[][]): string[] =>
  fromCaptures(
    {
      cylinders: apart.map((a, i) => ({ cylinder: i + 1, verdict: 'level', apart: a })),
      swing: absent('not-recorded'),
    },
    inline(apart.length),
    limits,
  )
    .filter(({ kind }) => kind !== 'burn-level')
    .map(({ kind, at }) => (at.kind === 'cylinders' ? `${kind} ${at.cylinders.join(',')}` : kind))

const low = finding('firing_kv', 'low', 'fellows')
const high = finding('firing_kv', 'high', 'fellows')
const unusual = finding('firing_kv', 'high', 'usual')

// The verdicts' own findings are weighed as they are printed, by no second rule.
test.each<[string, ApartFinding[][], string[]]>([
  ['one fires low', [[], [low], [], []], ['firing-low 2']],
  ['two fire low', [[low], [], [], [low], [], []], ['firing-low 1,4']],
  ['one high and one low', [[high], [], [low], []], ['firing-high 1', 'firing-low 3']],
  ['all beyond what is usual', [[unusual], [unusual], [unusual]], ['firing-all-high']],
  [
    'all beyond it, and one of them apart from the rest',
    [[unusual], [unusual], [high], [unusual]],
    ['firing-high 3', 'firing-all-high'],
  ],
  ['some beyond it', [[unusual], [], [unusual], []], ['firing-some-high 1,3']],
  ['two cylinders are no set', [[unusual], [unusual]], ['firing-some-high 1,2']],
  [
    'burn time and oscillations',
    [[finding('burn_ms', 'low', 'fellows'), finding('coil_cycles', 'low', 'fellows')], [], []],
    ['burn-time-short 1', 'oscillations-few 1'],
  ],
])('%s', (_, apart, kinds) => {
  expect(seen(...apart)).toEqual(kinds)
})
