import { whereOf } from '../finding.ts'
import { onEngine } from '../finding.ts'
import { logFinding, rowsOf } from './log-rows.ts'
import type { FindingReader } from './reader.ts'

/** Trouble codes as read: what the control unit noticed, not why. */
export const code: FindingReader = {
  kind: 'code',
  side: 'log',
  makes: 'suspected',
  newAfter: 'opposes',
  directions: ['stored'],
  role: 'sign',
  byCylinder: false,
  shift: undefined,
  read: (seen) =>
    rowsOf(seen, 'code').flatMap((row) =>
      (row.test.facts ?? []).flatMap((fact) =>
        fact.kind === 'code'
          ? [
              logFinding(row, {
                kind: 'code',
                direction: 'stored',
                reading: fact.code,
                sure: 'observed',
                where:
                  fact.cylinder === undefined
                    ? onEngine
                    : whereOf([fact.cylinder], { all: seen.cylinders, banks: seen.banks }),
              }),
            ]
          : [],
      ),
    ),
  short: (f) => (f.where.cylinders.length > 0 ? 'headline.found.code-at' : 'headline.found.code'),
  plain: () => 'page.found.code',
  figure: () => undefined,
  again: 'page.again.code',
}
