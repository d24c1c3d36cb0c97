import { toCsv } from './csv.ts'
import type { Result, TestRecord } from './result.ts'

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
    'swing_change_percent',
    'swing_change_percent_low',
    'swing_change_percent_high',
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
      ...swingOf(t),
    ]),
  )
}

/** Change of the idle's swing with a port closed, as its trace shows it. */
function swingOf({ computed }: TestRecord): (number | null)[] {
  const swing = computed['swingChange']
  return swing ? [swing.value, swing.low, swing.high] : [null, null, null]
}
