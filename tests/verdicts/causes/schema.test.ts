import { describe, expect, test } from 'vitest'
import { loadCauses } from '../../../src/limits/load-causes.ts'
import { loadSources } from '../../../src/limits/limits.ts'
import { LANGUAGES, loadTexts } from '../../../src/texts/load-texts.ts'
import { causesInForce } from '../../../src/verdicts/causes/override.ts'
import { parseCauses, valueFor } from '../../../src/verdicts/causes/schema.ts'
import { inline, table } from './case.ts'
import { weigh } from '../../../src/verdicts/causes/ledger.ts'
import { observe } from '../../../src/verdicts/causes/observation.ts'

const raw = () =>
  structuredClone(loadCauses().shipped) as Record<string, Record<string, Record<string, unknown>>>

/** Paths of what is wrong with a changed copy of the shipped table. */
function wrong(change: (t: ReturnType<typeof raw>) => void): string[] {
  const changed = raw()
  change(changed)
  try {
    parseCauses(changed)
    return []
  } catch (error) {
    return (error as { issues: { path: PropertyKey[] }[] }).issues.map((i) => i.path.join('.'))
  }
}

describe('the shipped table', () => {
  test('is right by its schema and holds at least 18 causes besides what is not listed', () => {
    expect(wrong(() => undefined)).toEqual([])
    expect(Object.keys(table.causes).filter((c) => c !== 'other').length).toBeGreaterThanOrEqual(18)
  })

  test('names its origin, and every cause, kind of evidence and test has its words', () => {
    expect(Object.keys(loadSources())).toContain(table.origin)
    for (const language of LANGUAGES) {
      const { templates } = loadTexts(language)
      const keys = [
        ...Object.keys(table.causes).map((c) => `cause.${c}`),
        ...Object.keys(table.evidence).map((e) => `evidence.${e}`),
        ...Object.entries(table.tests).flatMap(([id, t]) => [
          `next-test.${id}`,
          ...(t.outcomes?.map((o) => o.id) ?? ['found', 'nothing']).map((o) => `next-test.${id}.${o}`),
        ]),
        ...Object.entries(table.follow_ups).flatMap(([id, f]) => [
          `next-test.${id}`,
          `next-test.${id}.why`,
          ...f.outcomes.map((o) => `next-test.${id}.${o}`),
        ]),
        ...[...Object.values(table.tests), ...Object.values(table.follow_ups)].flatMap((t) =>
          t.cautions.map((c) => `report.cautions.${c}-title`),
        ),
      ]
      expect(keys.filter((k) => templates[k] === undefined)).toEqual([])
    }
  })

  test('every cause can be moved by some evidence and told apart by some test or follow-up', () => {
    for (const cause of Object.keys(table.causes).filter((c) => c !== 'other')) {
      const moved = Object.values(table.evidence).some((e) => {
        const value = valueFor(table, { of: e.likelihood, otherwise: e.otherwise, cause })
        return (typeof value === 'number' ? value : value.here) > 1
      })
      expect(moved, cause).toBe(true)
    }
  })
})

describe('a wrong table is refused, the entry named', () => {
  test.each<[string, (t: ReturnType<typeof raw>) => void, string]>([
    [
      'a likelihood of no cause',
      (t) => {
        t['evidence']!['spray-silent']!['likelihood'] = { 'no-such-cause': 2 }
      },
      'evidence.spray-silent.likelihood.no-such-cause',
    ],
    [
      'a group that is none',
      (t) => {
        t['evidence']!['spray-silent']!['group'] = 'nowhere'
      },
      'evidence.spray-silent.group',
    ],
    [
      'a likelihood of 0',
      (t) => {
        t['evidence']!['spray-silent']!['likelihood'] = { 'intake-leak': 0 }
      },
      'evidence.spray-silent.likelihood.intake-leak',
    ],
    [
      'a likelihood that settles everything',
      (t) => {
        t['evidence']!['smoke-leak']!['otherwise'] = 1e6
      },
      'evidence.smoke-leak.otherwise',
    ],
    [
      'a prior of 0',
      (t) => {
        t['causes']!['plug-worn']!['prior'] = 0
      },
      'causes.plug-worn.prior',
    ],
    [
      'an unknown key',
      (t) => {
        t['causes']!['plug-worn']!['priro'] = 1
      },
      'causes.plug-worn',
    ],
    [
      'a caution that is none',
      (t) => {
        t['tests']!['smoke']!['cautions'] = ['noise']
      },
      'tests.smoke.cautions.0',
    ],
    [
      'a test without caution',
      (t) => {
        t['tests']!['smoke']!['cautions'] = []
      },
      'tests.smoke.cautions',
    ],
    [
      'a follow-up that is none',
      (t) => {
        t['causes']!['plug-worn']!['follow_up'] = 'look'
      },
      'causes.plug-worn.follow_up',
    ],
    [
      'chances that leave nothing for the last outcome',
      (t) => {
        t['tests']!['vacuum']!['outcomes'] = [
          { id: 'low', chance: { 'shared-leak': 0.99 }, otherwise: 0.3 },
          { id: 'high', chance: {}, otherwise: 0.3 },
          { id: 'in-order' },
        ]
      },
      'tests.vacuum',
    ],
    [
      'a last outcome with chances',
      (t) => {
        t['tests']!['vacuum']!['outcomes'] = [
          { id: 'low', otherwise: 0.3 },
          { id: 'in-order', otherwise: 0.3 },
        ]
      },
      'tests.vacuum',
    ],
    [
      'neither outcomes nor a finding',
      (t) => {
        delete t['tests']!['smoke']!['finds']
      },
      'tests.smoke',
    ],
    [
      'no place for what is not listed',
      (t) => {
        delete t['causes']!['other']
      },
      'causes.other',
    ],
  ])('%s', (_, change, path) => expect(wrong(change)).toContain(path))
})

describe('a shop’s own entries', () => {
  const { shipped } = loadCauses()
  const own = {
    evidence: {
      'spray-silent': { group: 'place', likelihood: { 'intake-leak': { here: 0.5, elsewhere: 1 } } },
    },
    causes: { 'plug-worn': { ...table.causes['plug-worn'], prior: 12 } },
  }

  test('take the place of the shipped ones of the same name, and are named', () => {
    const { table: changed, changed: names } = causesInForce({ shipped, overrides: own })
    expect(names).toEqual(['causes.plug-worn', 'evidence.spray-silent'])
    expect(changed.causes['plug-worn']!.prior).toBe(12)
    expect(changed.evidence['smoke-leak']).toEqual(table.evidence['smoke-leak'])
  })

  test('change the result', () => {
    const seen = [
      observe('spray-silent', {
        at: { kind: 'places', places: ['throttle body'] },
        args: { place: 'throttle body' },
      }),
    ]
    const shareOf = (t: typeof table) => {
      const { candidates, posterior } = weigh(seen, { table: t, engine: inline(4) })
      return posterior[candidates.findIndex((c) => c.id === 'leak-throttle-body')]!
    }
    expect(shareOf(causesInForce({ shipped, overrides: own }).table)).toBeGreaterThan(1.5 * shareOf(table))
  })

  test('equal to the shipped ones, or none, change nothing', () => {
    expect(
      causesInForce({ shipped, overrides: { causes: { 'plug-worn': table.causes['plug-worn'] } } }).changed,
    ).toEqual([])
    expect(causesInForce({ shipped, overrides: undefined }).changed).toEqual([])
  })

  test('of a new name are refused: the report has no words for them', () => {
    const own = {
      causes: { 'idle-valve': { prior: 3, where: 'engine', families: [], places: ['idle valve'] } },
    }
    expect(() => causesInForce({ shipped, overrides: own })).toThrow(/causes\.idle-valve/)
  })

  test('that are wrong are refused, and so is a section that is none', () => {
    expect(() => causesInForce({ shipped, overrides: { causes: { 'plug-worn': { prior: -1 } } } })).toThrow(
      /plug-worn/,
    )
    expect(() => causesInForce({ shipped, overrides: { cuases: {} } })).toThrow(/cuases/)
  })
})
