import { conclude, leftAfter } from '../conclusion/conclude.ts'
import { compressionRead } from '../test-log/facts.ts'
import { readTests } from '../test-log/read-tests.ts'
import { readJob } from '../job/read-job.ts'
import type { ShopFile } from '../job/shop-file.ts'
import { changedLimits } from '../limits/changed-limits.ts'
import { loadLimits, loadSources, withValues, type Limits } from '../limits/limits.ts'
import { readingLimits, type OwnReadingLimits } from '../limits/reading-limits.ts'
import { LOG_FILE } from '../job/own-files.ts'
import { sha256 } from '../maths/sha256.ts'
import { capProblems } from '../problems/cap-problems.ts'
import { JobError, problem, type Problem } from '../problems/problem.ts'
import type { Proof } from '../records/proof.ts'
import { assembleResult } from '../records/assemble-result.ts'
import { eventsCsv } from '../records/events-csv.ts'
import { historyRecord } from '../records/parts/history-record.ts'
import { jobRecord } from '../records/parts/job-record.ts'
import { revised } from '../records/parts/revision.ts'
import type { DrawnTraces } from '../records/drawn-traces.ts'
import type { Result } from '../records/result.ts'
import { cmsBytes } from '../seal/cms.ts'
import { signerFor, type Signer } from '../seal/signing-key.ts'
import type { Texts } from '../texts/messages.ts'
import { reviewProblems } from './review-words.ts'
import { replacedAsItHolds } from './replaced-report.ts'
import { findHistory, visitOf, type HistoryIndex, type Hold } from './history.ts'
import { marksOf } from './vehicle-marks.ts'
import type { MeasuredStore } from './measured-store.ts'
import { eventRows, drawnTraces } from './phases/draw.ts'
import { eventSpeeds } from './phases/event-speeds.ts'
import { ground, workAndEarly } from './phases/ground.ts'
import { hashInputs } from './phases/hash-inputs.ts'
import { judge } from './phases/judge.ts'
import { causesFor, weigh } from './phases/weigh.ts'
import { measureCaptures } from './phases/measure-captures.ts'
import { methodOf } from './phases/method.ts'
import { poolsOf } from './phases/pool.ts'
import { readTraces } from './phases/read-traces.ts'
import { recordFiles } from './phases/records.ts'
import { renderOutputs } from './phases/render.ts'
import { readRegular } from '../files/regular-file.ts'

/** Choices of a call. */
export interface PageOptions {
  page: 'A4' | 'LETTER'
  version: string
  /** Embed the raw captures in the PDF as well. */
  embedCaptures: boolean
  /** Limits the shop has set for this call, by key, in the limit's own unit. */
  limits?: Readonly<Record<string, number>>
  /** Limits of reading set for this call, by key, in the limit's own unit. */
  reading?: OwnReadingLimits
  /** The shop's own entries of the table of causes for this call, as parsed from YAML, in place of templates/causes.shop.yaml. */
  causes?: unknown
  /** A proof of the measuring chain the caller hands in, to be quoted. */
  proof?: Proof
  /** The shop's private key (PEM), where it signs; written nowhere. */
  signingKeyPem?: string
  /** Stated date of signing, YYYY-MM-DD; where it is left out, the day the job was closed. */
  signedAt?: string
  /** The shop's own file: letterhead and logo. */
  shop?: ShopFile
  /** Earlier outputs, as they stood when the call began: the vehicle's own are its reference. */
  history?: HistoryIndex
  /** Absolute path of an output, or of a folder of outputs, whose reports these replace. */
  replaces?: string
  /** The state a script fails on, kept in the manifest; it decides nothing in the report. */
  failOn?: string
}

export interface JobOptions extends PageOptions {
  /** Digest of the program that runs: what another one measured is not used. */
  program: string
  /** Where measurements are kept between runs. */
  store: MeasuredStore
  /** How an earlier output stands; none holds where it is left out. @param output  sha256: of its manifest.json as read */
  holds?: (output: { folder: string; sha256?: string }) => Promise<Hold>
}

export interface JobOutput {
  result: Result
  drawn: DrawnTraces
  /** Every output but the manifest, by its name in the output's folder. */
  files: Map<string, Uint8Array | string>
  warnings: readonly Problem[]
}

/** A job up to its records, before anything is drawn. */
export interface Recorded {
  result: Result
  drawn: DrawnTraces
  /** result.json and the CSV files. */
  records: Map<string, string>
  /** Absolute paths of the input files by their name in the job. */
  inputs: ReadonlyMap<string, string>
  warnings: readonly Problem[]
}

/**
 * One job from folder to files, the phases in order; nothing else chains them:
 *
 *   read job -> measure captures -> take short ones together -> read traces -> read tests -> judge -> weigh causes -> conclude -> assemble -> draw
 *
 * Nothing is sealed or written here, and nothing inside a job is caught but JobErrors, which are gathered so that one pass
 * shows every problem.
 *
 * @param folder  absolute path of the job folder
 * @throws JobError with all problems of the job
 */
export async function runJob(folder: string, options: JobOptions, texts: Texts): Promise<JobOutput> {
  const { result, drawn, records, inputs, warnings } = await recordJob(folder, options, texts)
  const certified = signerFor(options)?.certified
  const files = await renderOutputs({
    result,
    drawn,
    texts,
    records,
    inputFile: (file) => asListed(result, file, inputs.get(file)!),
    embedCaptures: options.embedCaptures,
    logo: options.shop?.logo,
    slotBytes: certified && cmsBytes(certified),
  })
  return { result, drawn, files, warnings }
}

/** An input's bytes, which have to be those whose digest the record lists. */
async function asListed({ inputs }: Result, file: string, path: string): Promise<Uint8Array> {
  const bytes = await readRegular(path)
  if (inputs.find((input) => input.file === file)?.sha256 !== sha256(bytes))
    throw new JobError([problem('changed-while-read', { file }, { path: file })])
  return bytes
}

/**
 * The same up to the records: what is read from result.json and the CSV files needs no drawing.
 * @throws JobError with all problems of the job
 */
export async function recordJob(folder: string, options: JobOptions, texts: Texts): Promise<Recorded> {
  const signer = signerFor(options)
  const limits = withValues(loadLimits(), options.limits ?? {})
  const reading = readingLimits(options.reading)
  const jobFolder = await readJob(folder, reading)
  const { job } = jobFolder
  const { shop } = options
  const certificate = certificateOf(signer, { signedAt: options.signedAt, closed: job.closed })
  if (shop?.shop.name !== undefined && shop.shop.name !== job.shop.name)
    throw new JobError([otherShop(job.shop.name, shop.shop.name)])
  const replaced =
    options.replaces === undefined
      ? undefined
      : await replacedAsItHolds(options.replaces, job.work_order, options.holds)
  const { voltage_uncertainty_percent, time_uncertainty_ppm } = jobRecord(job, 'not given').instrument
  const instrument = {
    voltageUncertaintyPercent: voltage_uncertainty_percent,
    timeUncertaintyPpm: time_uncertainty_ppm,
  }

  const { captures, problems: captureProblems } = await measureCaptures({
    jobFolder,
    instrument,
    limits,
    reading,
    texts,
    store: options.store,
    program: options.program,
  })
  const { traces, problems: traceProblems } = await readTraces(jobFolder, reading)
  const speeds = eventSpeeds(captures, job.engine.strokes)
  const { tests, problems: logProblems } = readTests({ log: jobFolder.log, traces, speeds, job, limits })
  const problems = [
    ...reviewProblems(jobFolder),
    ...jobFolder.warnings,
    ...captureProblems,
    ...traceProblems,
    ...capProblems(LOG_FILE, logProblems),
  ]
  if (problems.some((p) => p.severity === 'refuse')) throw new JobError(problems)

  const { tooEarly } = workAndEarly(job, { captures, tests })
  const pools = poolsOf(captures, { engine: job.engine, instrument, limits })
  const all = [...captures, ...pools]
  const { judged, repair } = judge(all, {
    compression: compressionRead(tests),
    ignition: job.engine.ignition,
    limits,
    tooEarly,
  })
  const grounds = ground(job, { captures: all, judged, tests, repair }, limits)
  const causes = weigh(
    job,
    { captures: all, judged, tests, repair: grounds.repair, ...leftAfter(grounds) },
    { limits, table: causesFor(options.causes) },
  )
  const conclusion = conclude(grounds, {
    weighed: causes,
    cause: job.cause,
    correction: job.correction,
    limits,
    events: captures.reduce((sum, { record }) => sum + record.events - record.partial, 0),
    captures: captures.map((c) => c.entry),
  })
  const digests = new Map(
    [...captures.map((c) => c.record), ...[...traces.values()]].map(({ file, sha256, bytes }) => [
      file,
      { sha256, bytes },
    ]),
  )
  const first = assembleResult(texts, {
    version: options.version,
    page: options.page,
    signing: { key: signer?.fingerprint, certificate },
    jobFolder,
    captures: captures.map((c) => c.record),
    pools: pools.map(({ files, record }) => ({ files, record })),
    speeds: captures.map((c) => c.speed),
    judged,
    tests,
    repair: grounds.check,
    causes,
    conclusion,
    limits,
    changedLimits: changedLimits(limits),
    sources: loadSources(),
    method: methodOf({ captures, tests, instrument, limits, proof: options.proof, program: options.program }),
    problems,
    inputs: await hashInputs(jobFolder, digests),
    ...(shop === undefined ? {} : { shop: shop.shop, handedIn: [...shop.files] }),
  })
  const withHistory = await addHistory(first, options, { texts, limits })
  const result = replaced === undefined ? withHistory : revised(texts, withHistory, replaced)
  const drawn = drawnTraces(captures, traces, result)
  const records = recordFiles(result, eventsCsv(eventRows(captures)))
  return { result, drawn, records, inputs: jobFolder.files, warnings: problems }
}

/** The result with the vehicle's earlier visits, where outputs were handed in; nothing else in it changes. */
async function addHistory(
  result: Result,
  { history: index, holds = () => Promise.resolve('altered') }: JobOptions,
  { texts, limits }: { texts: Texts; limits: Limits },
): Promise<Result> {
  if (index === undefined) return result
  const { job } = result
  const { visits, leftOut, others, judged } = await findHistory(
    index,
    { workOrder: job.work_order, opened: job.opened, vehicle: marksOf(job) },
    { now: visitOf(result), holds, limits },
  )
  const used = [...visits.map(({ entry }) => entry), ...others.flat()]
  const files = used.map(({ name, sha256, bytes }) => ({
    what: 'history' as const,
    file: `${name}/manifest.json`,
    sha256,
    bytes,
  }))
  return {
    ...result,
    history: historyRecord(texts, {
      visits: visits.map(({ entry: { visit, name, sha256 }, by }) => ({ visit, by, name, sha256 })),
      leftOut,
      others: others.flat().length,
      judged,
    }),
    ...(files.length === 0 ? {} : { handed_in: [...(result.handed_in ?? []), ...files] }),
  }
}

/**
 * What the record says of the signature that readers show; undefined where the shop's key file has no certificate.
 *
 * @throws JobError where no date to sign with is stated: none is taken from a clock
 */
export function certificateOf(
  signer: Signer | undefined,
  { signedAt, closed }: { signedAt: string | undefined; closed: string | undefined },
): Result['program']['certificate'] {
  if (!signer?.certified) return undefined
  const date = signedAt ?? closed
  if (date === undefined) throw new JobError([problem('no-signing-date', { file: 'job.yaml' }, {})])
  const { fingerprint, name } = signer.certified.certificate
  return { sha256: fingerprint, name: name ?? '', signed_at: date }
}

/** A letterhead must be of the shop that did the work. */
const otherShop = (job: string, file: string): Problem =>
  problem('shop-differs', { file: 'job.yaml' }, { job, file })
