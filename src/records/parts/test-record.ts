import type { TestFinding } from '../../test-log/findings.ts'
import type { Texts } from '../../texts/messages.ts'
import type { TestRecord } from '../result.ts'
import { intervalRecord } from './figure-record.ts'
import { instantMark, testMark } from './marks.ts'
import { statement } from './statement.ts'

/** One test of the log with what it was found to mean; `place` tells its evidence mark. */
export function testRecord(
  texts: Texts,
  test: TestFinding,
  place: { index: number; traces: ReadonlyMap<string, string> },
): TestRecord {
  const trace = test.trace === undefined ? undefined : place.traces.get(test.trace)
  return {
    mark: testMark(place.index),
    instant: trace && test.fromS !== undefined ? instantMark(trace, test.fromS) : null,
    at: test.at,
    step: test.step,
    place: test.place ?? null,
    stage: test.stage,
    condition: test.condition ?? null,
    lines: [...test.lines],
    readings: test.readings.map((r) => ({
      reading: r.reading,
      value: r.value ?? null,
      unit: r.unit ?? null,
      expected_low: r.expectedLow ?? null,
      expected_high: r.expectedHigh ?? null,
      finding: r.finding ?? null,
    })),
    computed: Object.fromEntries(
      Object.entries(test.computed).map(([name, interval]) => [name, intervalRecord(interval)]),
    ),
    finding: test.finding,
    effect: test.effect ? intervalRecord(test.effect) : null,
    p_value: test.pValue ?? null,
    trace: test.trace ?? null,
    from_s: test.fromS ?? null,
    to_s: test.toS ?? null,
    outcome: test.outcome ?? null,
    note: test.note ?? null,
    observed: test.observed,
    meaning: test.says.map((s) => statement(texts, s)),
  }
}
