import type { Conclusion } from '../conclusion/conclusion.ts'
import type { JobFolder } from '../job/job-folder.ts'
import { checkVin } from '../job/vin.ts'
import type { Limits, Sources } from '../limits/limits.ts'
import type { Problem } from '../problems/problem.ts'
import type { SpeedMeasures } from '../metrics/figures.ts'
import type { Says, TestFinding } from '../test-log/findings.ts'
import type { Texts } from '../texts/messages.ts'
import { problemSentence } from '../texts/say-problem.ts'
import { apartOf, standFor, verdictsOf, type JudgedCylinder } from '../verdicts/judge-engine.ts'
import type { WeighedCauses } from '../verdicts/causes/weigh-causes.ts'
import { enginePattern } from '../verdicts/pattern.ts'
import type { RepairCheck } from '../verdicts/repair.ts'
import { compareReadings } from '../verdicts/repair-readings.ts'
import { causeRecords } from './parts/cause-records.ts'
import { conclusionRecord, summaryOf } from './parts/conclusion-record.ts'
import { plainSummary, measuredRecord } from './parts/figure-record.ts'
import { cylinderRecord } from './parts/cylinder-record.ts'
import { jobRecord } from './parts/job-record.ts'
import { ledgerRecord } from './parts/ledger-record.ts'
import { huntOf, leakHuntRecord, type Hunted } from './parts/leak-hunt-record.ts'
import { nextTestRecord } from './parts/next-test-record.ts'
import { captureMark, marksTogether, poolMark, traceMarks } from './parts/marks.ts'
import { reviewRecords } from './parts/review-record.ts'
import { repairRecord } from './parts/repair-record.ts'
import { statement } from './parts/statement.ts'
import { testRecord } from './parts/test-record.ts'
import type { CaptureRecord, Result } from './result.ts'

/** One step that ran, with its settings: the report's method section is made from these. */
export interface MethodStep {
  step: string
  says: Says
  settings: Readonly<Record<string, number | string>>
}

/** Everything the phases before found out. */
export interface Findings {
  version: string
  /** Fingerprint of the key the report is signed with, and what is said of its certificate. */
  signing: { key: string | undefined; certificate: Result['program']['certificate'] }
  page: 'A4' | 'LETTER'
  jobFolder: JobFolder
  /** Particulars of the shop file, where one was given. */
  shop?: Partial<JobFolder['job']['shop']>
  captures: readonly CaptureRecord[]
  /** Captures taken together: their files, and the record that stands for them. */
  pools: readonly { files: readonly string[]; record: CaptureRecord }[]
  speeds: readonly SpeedMeasures[]
  judged: readonly JudgedCylinder[]
  tests: readonly TestFinding[]
  repair: RepairCheck
  causes: WeighedCauses
  conclusion: Conclusion
  limits: Limits
  changedLimits: ReadonlySet<string>
  sources: Sources
  method: readonly MethodStep[]
  problems: readonly Problem[]
  inputs: Result['inputs']
  handedIn?: NonNullable<Result['handed_in']>
}

/** Puts all findings into the one value that every output is a view of. */
export function assembleResult(texts: Texts, found: Findings): Result {
  const { job } = found.jobFolder
  const said = (s: Says) => statement(texts, s)
  const vin = job.vehicle.vin
  const marks = new Map([
    ...found.captures.map(({ file }, i) => [file, captureMark(i)] as const),
    ...found.pools.map(({ record }, i) => [record.file, poolMark(i)] as const),
  ])
  const traces = traceMarks(found.tests)
  const hunted = huntedIn(found)
  const partial: Omit<Result, 'summary'> = {
    format: 1,
    program: {
      name: 'burnline',
      version: found.version,
      ...(found.signing.key === undefined ? {} : { signing_key: found.signing.key }),
      ...(found.signing.certificate === undefined ? {} : { certificate: found.signing.certificate }),
    },
    language: texts.language,
    page: found.page,
    job: jobRecord(job, vin === undefined ? 'not given' : checkVin(vin).check, found.shop),
    captures: found.captures.map((c) => ({ ...c, mark: marks.get(c.file)! })),
    ...(found.pools.length > 0 && { pools: found.pools.map((pool) => poolRecord(pool, marks)) }),
    cylinders: found.judged.map((j) => cylinderRecord(texts, j, marks.get(j.measures.capture)!)),
    engine: { before: engineRecord(texts, found, 'before'), after: engineRecord(texts, found, 'after') },
    tests: found.tests.map((t, index) => testRecord(texts, t, { index, traces })),
    causes: causeRecords(texts, found.causes, marksAsFound(found.captures, marks)),
    ledger: ledgerRecord(texts, found.causes, found.limits),
    next_test: nextTestRecord(texts, found.causes, hunted?.next),
    ...(hunted ? { leak_hunt: leakHuntRecord(texts, hunted, found.causes) } : {}),
    repair: repairRecord(texts, found.repair, {
      work: workDone(found.tests),
      reason: found.conclusion.repair.reason,
      readings: compareReadings(found.tests, found.speeds),
    }),
    conclusion: conclusionRecord(texts, found.conclusion, marks),
    ...reviewOf(texts, found),
    limits: Object.entries(found.limits).map(([key, l]) => ({
      key,
      value: l.value,
      unit: l.unit,
      meaning: texts.templates[`limit.${key}`] ?? l.meaning,
      origin: l.origin,
      changed: found.changedLimits.has(key),
    })),
    sources: Object.entries(found.sources).map(([key, text]) => ({
      key,
      text: texts.templates[`source.${key}`] ?? text,
    })),
    method: found.method.map((m) => ({ step: m.step, says: said(m.says), settings: { ...m.settings } })),
    problems: found.problems.map((p) => ({
      code: p.code,
      severity: p.severity,
      file: p.file,
      line: p.line ?? null,
      column: p.column ?? null,
      text: problemSentence(texts, p),
    })),
    inputs: found.inputs,
    ...(texts.own === undefined ? {} : { own_texts: texts.own.map((own) => ({ ...own })) }),
    ...(found.handedIn === undefined ? {} : { handed_in: found.handedIn }),
  }
  return { ...partial, summary: summaryOf(partial.conclusion) }
}

const poolRecord = (
  { files, record: { file, stage, condition, engine } }: Findings['pools'][number],
  marks: ReadonlyMap<string, string>,
): NonNullable<Result['pools']>[number] => ({
  mark: marks.get(file)!,
  capture: file,
  files: [...files],
  stage,
  condition,
  engine,
})

/** How a capture was taken, by its file, or by those of a pool. */
function entriesOf({ captures, pools }: Findings): (file: string) => CaptureRecord {
  const records = [...captures, ...pools.map(({ record }) => record)]
  return (file) => records.find((c) => c.file === file)!
}

/** The leak hunt, where there was one. */
function huntedIn(found: Findings): Hunted | undefined {
  const standing = standFor(found.judged, 'before', entriesOf(found))
  return huntOf(found.tests, {
    causes: found.causes,
    pattern: enginePattern(verdictsOf(standing), found.jobFolder.job.engine.banks, apartOf(standing)),
  })
}

/** What a person holds against the report, where anybody does. */
function reviewOf(texts: Texts, found: Findings): Pick<Result, 'review'> {
  const { review } = found.jobFolder.job
  if (!review || review.length === 0) return {}
  const entryOf = entriesOf(found)
  const standing = {
    before: standFor(found.judged, 'before', entryOf),
    after: standFor(found.judged, 'after', entryOf),
  }
  return {
    review: reviewRecords(texts, review, {
      verdictOf: (stage, cylinder) => standing[stage].get(cylinder)?.judgement.verdict,
      faults: found.conclusion.faults,
    }),
  }
}

/** Pattern and speed of the engine in one stage; null where no capture was taken in it. */
function engineRecord(texts: Texts, found: Findings, stage: 'before' | 'after'): Result['engine']['before'] {
  const entryOf = entriesOf(found)
  const standing = standFor(found.judged, stage, entryOf)
  if (standing.size === 0) return null
  const { pattern, cylinders, says } = enginePattern(
    verdictsOf(standing),
    found.jobFolder.job.engine.banks,
    apartOf(standing),
  )
  const speed = stageSpeed(
    found.speeds.filter((s) => s.stage === stage),
    (file) => entryOf(file).condition,
  )
  return {
    pattern,
    cylinders: [...cylinders],
    says: statement(texts, says),
    speed: {
      mean_rpm: plainSummary(speed.mean),
      spread_rpm: measuredRecord(speed.spread),
      swing_rpm: measuredRecord(speed.swing),
      swing_period_s: measuredRecord(speed.swingPeriod),
    },
  }
}

/** The speed that stands for a stage: that of the idle capture with the most cycles. */
function stageSpeed(speeds: readonly SpeedMeasures[], conditionOf: (file: string) => string): SpeedMeasures {
  const rank = (s: SpeedMeasures) =>
    (conditionOf(s.capture) === 'idle' ? 1e9 : 0) + (s.mean.ok ? s.mean.n : -1)
  return speeds.reduce((best, s) => (rank(s) > rank(best) ? s : best))
}

/** Marks of the captures of the engine as found; of all where none is from before a repair. */
function marksAsFound(captures: Findings['captures'], marks: ReadonlyMap<string, string>): string {
  const before = captures.filter(({ stage }) => stage === 'before')
  return marksTogether((before.length > 0 ? before : captures).map(({ file }) => marks.get(file)!))
}

/** What the log says was repaired, in the technician's words. */
const workDone = (tests: readonly TestFinding[]): string[] =>
  tests.filter((t) => t.step === 'repair').map((t) => [t.place, t.note].filter(Boolean).join(': '))
