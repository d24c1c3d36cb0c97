import { onEngine, whereOf, type JobFinding, type Where } from '../finding.ts'
import { STATE_OF, type Seen } from '../seen.ts'
import type { Fact } from '../../test-log/fact.ts'
import type { TestFinding } from '../../test-log/findings.ts'
import { cylinderOf } from '../../test-log/step-kind.ts'
import { logFinding, type LogRow } from './log-rows.ts'
import type { FindingReader } from './reader.ts'

type PartFact = Extract<Fact, { kind: 'part' }>

/**
 * Parts tested by themselves: plugs read, leads measured, a part changed over, air put into a cylinder, a valve commanded;
 * and any other reading held against limits (ignition timing), whether or not it weighs for a cause.
 */
export const part: FindingReader = {
  kind: 'part',
  side: 'log',
  makes: 'fault',
  newAfter: 'opposes',
  directions: ['fails'],
  role: 'sign',
  byCylinder: true,
  shift: undefined,
  read: (seen) => {
    const all = seen.tests.flatMap((test, index) =>
      seen.tooEarly.has(index)
        ? []
        : [
            ...(test.facts ?? []).flatMap((fact): JobFinding[] =>
              fact.kind === 'part' ? [ofFact(seen, fact, { test, index, state: STATE_OF[test.stage] })] : [],
            ),
            ...ofLimits(seen, { test, index, state: STATE_OF[test.stage] }),
          ],
    )
    // tests come in the order of time: of a part tested again in one state the last stands
    return [...new Map(all.map((f) => [JSON.stringify([f.state, f.reading, f.where]), f])).values()]
  },
  short: () => 'headline.found.part',
  plain: () => 'page.found.part',
  figure: () => undefined,
  again: 'page.again.part',
}

const ofFact = (seen: Seen, fact: PartFact, row: LogRow): JobFinding =>
  logFinding(row, {
    kind: 'part',
    where: whereIs(seen, fact),
    direction: fact.fine ? 'none' : 'fails',
    reading: row.test.step,
    sure: fact.sure ? 'measured' : 'observed',
  })

/** Steps with a kind of finding of their own. */
const OWN_KIND: ReadonlySet<TestFinding['step']> = new Set([
  'trim',
  'gas',
  'vacuum',
  'fuel-pressure',
  'compression',
  'spray',
  'smoke',
  'cap',
  'uncap',
  'code',
])

/** A test held against limits that gives no fact to weigh. */
function ofLimits(seen: Seen, row: LogRow): JobFinding[] {
  const { step, finding, facts = [], place, readings } = row.test
  if (OWN_KIND.has(step) || facts.length > 0) return []
  if (finding !== 'in limits' && finding !== 'out of limits') return []
  const cylinders = readings.flatMap(({ reading }) => cylinderOf(reading) ?? [])
  return [
    logFinding(row, {
      kind: 'part',
      where: whereIs(seen, { cylinders, place, bank: undefined }),
      direction: finding === 'in limits' ? 'none' : 'fails',
      reading: step,
    }),
  ]
}

function whereIs(
  { cylinders, banks }: Seen,
  {
    cylinders: of,
    bank,
    place,
  }: { cylinders: readonly number[]; bank?: number | undefined; place: string | undefined },
): Where {
  if (of.length > 0) return whereOf(of, { all: cylinders, banks })
  if (bank !== undefined)
    return { scope: 'bank', bank: String(bank), cylinders: banks?.[String(bank)] ?? [], place: undefined }
  return place === undefined ? onEngine : { scope: 'place', bank: undefined, cylinders: [], place }
}
