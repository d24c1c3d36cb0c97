import type { Recording } from '../capture/capture.ts'
import type { LogRow } from '../job/job-folder.ts'
import type { Job } from '../job/schema.ts'
import type { Limits } from '../limits/limits.ts'
import type { Problem } from '../problems/problem.ts'
import { withAdditions } from './addition.ts'
import { unmeteredAir } from './air/unmetered-air.ts'
import { checkTrace, type TraceSource } from './check-traces.ts'
import { contradictions } from './contradictions.ts'
import { lambdaAgainstTrims } from './cross-check.ts'
import type { Fact } from './fact.ts'
import type { TestFinding } from './findings.ts'
import { cappedDuring, isolate } from './isolation.ts'
import { readEntries, type LogEntry } from './log-entry.ts'
import { momentS } from './moment.ts'
import { placeCells } from './place-cells.ts'
import { readingsTwice } from './readings-twice.ts'
import type { SpeedSeries } from './spray/speed-grid.ts'
import { judgeTracedSprays } from './spray/traced-sprays.ts'
import { readAirflow } from './steps/airflow.ts'
import { readCode } from './steps/code.ts'
import { readCompression } from './steps/compression.ts'
import { readFuelPressure } from './steps/fuel-pressure.ts'
import { readGas } from './steps/gas.ts'
import { readObserved } from './steps/observed.ts'
import { readTrim } from './steps/trim.ts'
import { readVacuum } from './steps/vacuum.ts'
import { groupEntries, type StepContext, type TestGroup } from './test-group.ts'
import { trimPatterns } from './trim-pattern.ts'
import { checkReading } from './usual-readings.ts'

export interface TestLogInput {
  log: readonly LogRow[]
  /** Decoded traces by file, as job.yaml names them; one that could not be decoded is left out. */
  traces: ReadonlyMap<string, Recording>
  /** Engine speed from the events of captures, by file, for rows that name a long one as their trace. */
  speeds?: ReadonlyMap<string, SpeedSeries>
  job: Job
  limits: Limits
}

/**
 * Reads the whole test log: cells, then every test by itself, then what tests say together.
 * The order of the rows does not matter, only the times in them; tests come out in the order of time.
 *
 * @returns the tests, and every problem of the cells; with a problem that refuses, no test is read
 */
export function readTests(input: TestLogInput): { tests: TestFinding[]; problems: Problem[] } {
  const source: TraceSource = { traces: input.traces, speeds: input.speeds ?? new Map(), job: input.job }
  const rows = readEntries(input.log)
  const entries = rows.flatMap((r) => (r.entry ? [r.entry] : []))
  const problems = placeCells(input.log, [
    ...rows.flatMap((r) => r.problems),
    ...entries.flatMap((e) => [...checkReading(e, input.job), ...checkTrace(e, source)]),
    ...readingsTwice(entries),
  ])
  if (problems.some((p) => p.severity === 'refuse')) return { tests: [], problems }
  const context: StepContext = { job: input.job, limits: input.limits }
  const single = groupEntries(inTime(entries)).map((group) => readGroup(group, context))
  return { tests: readTogether(single, source, input.limits), problems }
}

const inTime = (entries: readonly LogEntry[]): LogEntry[] =>
  [...entries].sort((a, b) => momentS(a.at) - momentS(b.at) || a.line - b.line)

/** One test by itself. */
function readGroup(group: TestGroup, context: StepContext): TestFinding {
  switch (group[0].step) {
    case 'trim':
      return readTrim(group, context)
    case 'gas':
      return readGas(group, context)
    case 'fuel-pressure':
      return readFuelPressure(group, context)
    case 'vacuum':
      return readVacuum(group, context)
    case 'compression':
      return readCompression(group, context)
    case 'airflow':
      return readAirflow(group, context)
    case 'code':
      return readCode(group)
    case 'spray':
    case 'cap':
    case 'uncap':
    case 'smoke':
    case 'repair':
    case 'photo':
    case 'note':
      return readObserved(group)
  }
}

/** What tests say together, added to the tests it stands with. */
function readTogether(single: readonly TestFinding[], source: TraceSource, limits: Limits): TestFinding[] {
  const cappedAt = cappedDuring(single)
  const traced = judgeTracedSprays(single, source, { cappedAt, limits })
  const sprayed = single.map((test, index) => {
    const judged = traced.get(index)
    const bare = judged ? { ...test, says: [], observed: false, finding: judged.finding } : test
    const read = judged ? withAdditions([bare], [{ ...judged.addition, index: 0 }])[0]! : bare
    return withSprayFact(
      judged?.pValue === undefined ? read : { ...read, pValue: judged.pValue },
      cappedAt[index]!,
    )
  })
  const additions = [
    ...isolate(sprayed, cappedAt),
    ...trimPatterns(sprayed, limits),
    ...unmeteredAir(sprayed, limits),
    ...lambdaAgainstTrims(sprayed, limits),
    ...contradictions(sprayed),
  ]
  return withAdditions(sprayed, additions)
}

function withSprayFact(test: TestFinding, capped: readonly string[]): TestFinding {
  const { step, finding, place = '', stage, observed, computed } = test
  if (step !== 'spray' || (finding !== 'response' && finding !== 'no response')) return test
  const changeRpm = (computed['changeTogether'] ?? computed['change'])?.value
  const fact: Fact =
    finding === 'response'
      ? { kind: 'spray-response', place, changeRpm, capped, stage, sure: !observed }
      : { kind: 'spray-silent', place, capped, stage, sure: !observed }
  return { ...test, facts: [...(test.facts ?? []), fact] }
}
