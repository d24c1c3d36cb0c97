import type { Recording } from '../capture/capture.ts'
import type { LogRow } from '../job/job-folder.ts'
import type { Job } from '../job/schema.ts'
import type { Limits } from '../limits/limits.ts'
import type { Problem } from '../problems/problem.ts'
import { withAdditions } from './addition.ts'
import { unmeteredAir } from './air/unmetered-air.ts'
import { checkEntries } from './check-entries.ts'
import type { TraceSource } from './check-traces.ts'
import { contradictions } from './contradictions.ts'
import { lambdaAgainstTrims } from './cross-check.ts'
import type { Fact } from './fact.ts'
import type { TestFinding } from './findings.ts'
import { cappedDuring, isolate } from './isolation.ts'
import type { LogEntry } from './entry.ts'
import { readEntries } from './log-entry.ts'
import { momentS } from './moment.ts'
import { withSamePlaces } from './place/same-places.ts'
import { placeCells } from './place-cells.ts'
import type { SpeedSeries } from './spray/speed-grid.ts'
import { capEvents, judgeTracedCaps, type TracedCap } from './spray/traced-caps.ts'
import { readEvents } from './spray/trace-events.ts'
import { judgeTracedSprays, sprayEvents } from './spray/traced-sprays.ts'
import { STEP_KINDS } from './steps/index.ts'
import { groupEntries, recorded, type StepContext, type TestGroup } from './test-group.ts'
import { isDoubtful } from './usual-readings.ts'
import { trimPatterns } from './trim-pattern.ts'

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
    ...checkEntries(entries, { job: input.job, source }),
  ])
  if (problems.some((p) => p.severity === 'refuse')) return { tests: [], problems }
  const context: StepContext = { job: input.job, limits: input.limits }
  const single = groupEntries(inTime(withSamePlaces(entries))).map((group) => readOne(group, context))
  return { tests: readTogether(single, source, input.limits), problems }
}

const inTime = (entries: readonly LogEntry[]): LogEntry[] =>
  [...entries].sort((a, b) => momentS(a.at) - momentS(b.at) || a.line - b.line)

/** One test by itself. A figure out of its kind's world is shown as logged, and nothing is read from it. */
function readOne(group: TestGroup, context: StepContext): TestFinding {
  const { read } = STEP_KINDS[group[0].step]
  if (!group.some(isDoubtful)) return read(group, context)
  const [first, ...others] = group.map((e) => (isDoubtful(e) ? withoutFigure(e) : e)) as unknown as TestGroup
  return { ...read([first, ...others], context), readings: recorded(group).readings }
}

function withoutFigure(entry: LogEntry): LogEntry {
  const rest = { ...entry }
  delete rest.value
  return rest
}

/** What tests say together, added to the tests it stands with. */
function readTogether(single: readonly TestFinding[], source: TraceSource, limits: Limits): TestFinding[] {
  const cappedAt = cappedDuring(single)
  const read = readEvents([...sprayEvents(single, cappedAt), ...capEvents(single)], source, limits)
  const traced = judgeTracedSprays(single, read, limits)
  const caps = judgeTracedCaps(single, read, limits)
  const sprayed = single.map((test, index) => {
    const cap = caps.get(index)
    if (cap) return withCap(test, cap)
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

/** What the trace says of a port stands for what was seen; where it says nothing clear, what was seen stands beside it. */
function withCap(test: TestFinding, { addition, finding, pValue }: TracedCap): TestFinding {
  const p = pValue === undefined ? {} : { pValue }
  if (finding === 'unclear') {
    const seen = test.finding === 'response' || test.finding === 'no response'
    return {
      ...withAdditions([seen ? test : { ...test, says: [], finding }], [{ ...addition, index: 0 }])[0]!,
      ...p,
    }
  }
  const { place = '', stage } = test
  const fact: Fact = { kind: 'cap', place, changed: finding === 'response', stage, sure: true }
  const bare: TestFinding = { ...test, says: [], observed: false, finding, facts: [fact] }
  return { ...withAdditions([bare], [{ ...addition, index: 0 }])[0]!, ...p }
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
