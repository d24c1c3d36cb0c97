import { toCsv } from './csv.ts'
import type { Result } from './result.ts'

/** tests.csv: one row per test of the log, with what it was found to mean. */
export function testsCsv(result: Result): string {
  const columns = [
    'at',
    'step',
    'place',
    'stage',
    'condition',
    'finding',
    'effect',
    'effect_low',
    'effect_high',
    'unit',
    'p_value',
    'meaning',
  ]
  return toCsv(
    columns,
    result.tests.map((t) => [
      t.at,
      t.step,
      t.place,
      t.stage,
      t.condition,
      t.finding,
      t.effect?.value ?? null,
      t.effect?.low ?? null,
      t.effect?.high ?? null,
      t.effect?.unit ?? null,
      t.p_value,
      t.meaning.map((m) => m.text).join(' '),
    ]),
  )
}
