import { onEngine, whereOf, type JobFinding, type Where } from '../finding.ts'
import { STATE_OF, type Seen } from '../seen.ts'
import type { Fact } from '../../test-log/fact.ts'
import { logFinding, type LogRow } from './log-rows.ts'
import type { FindingReader } from './reader.ts'

type PartFact = Extract<Fact, { kind: 'part' }>

/** Parts tested by themselves: plugs read, leads measured, a part changed over, air put into a cylinder, a valve commanded. */
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
        : (test.facts ?? []).flatMap((fact): JobFinding[] =>
            fact.kind === 'part' ? [ofFact(seen, fact, { test, index, state: STATE_OF[test.stage] })] : [],
          ),
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

function whereIs({ cylinders, banks }: Seen, { cylinders: of, bank, place }: PartFact): Where {
  if (of.length > 0) return whereOf(of, { all: cylinders, banks })
  if (bank !== undefined)
    return { scope: 'bank', bank: String(bank), cylinders: banks?.[String(bank)] ?? [], place: undefined }
  return place === undefined ? onEngine : { scope: 'place', bank: undefined, cylinders: [], place }
}
