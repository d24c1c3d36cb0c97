import { realpath, stat } from 'node:fs/promises'
import { basename, dirname } from 'node:path'
import { capProblems } from '../problems/cap-problems.ts'
import { JobError, problem, type Problem } from '../problems/problem.ts'
import { checkPhotos } from './check-photos.ts'
import { CHECKS } from './checks/index.ts'
import { outside } from './checks/dates.ts'
import { stagesAgainstRepairs } from './checks/stages.ts'
import { guessesLeft } from './guesses.ts'
import { isMoment } from './iso-time.ts'
import { daysOfJob } from './job-days.ts'
import type { LogRow } from './job-folder.ts'
import { namedFiles } from './named-files.ts'
import { JOB_FILE, LOG_FILE, ownFile } from './own-files.ts'
import { partsOf, type JobParts } from './parts.ts'
import { readingLimits, type ReadingLimits } from '../limits/reading-limits.ts'
import { readLog, type ReadLog } from './read-log.ts'
import { reasonOf } from './read-text.ts'
import { sameContents } from './same-contents.ts'
import { jobSchema, type Job } from './schema.ts'
import { schemaProblems } from './schema-problems.ts'
import { stepMeant } from './step-words.ts'
import { withUsualSpellings } from './usual-spellings.ts'
import { readYaml, type YamlFile } from './yaml-document.ts'

/** A job folder as far as it can be read, with everything wrong in it. */
export interface Inspection {
  /** Real path of the folder, links followed. */
  folder: string
  /** Undefined where job.yaml does not follow its schema. */
  job: Job | undefined
  log: readonly LogRow[]
  files: ReadonlyMap<string, string>
  lineOf: (path: string) => number | undefined
  /** Reviews of job.yaml that are valid by themselves. */
  reviews: JobParts['reviews']
  /** Of all files, refusals and warnings, in the order of the files. */
  problems: readonly Problem[]
}

/**
 * Reads everything of a job folder but the contents of captures and traces, and gathers what is wrong:
 * a mistake in one file or key does not hide the next.
 *
 * @param folder  path of the job folder
 * @throws JobError with `not-a-folder` or `unreadable-file` where there is nothing to read
 */
export async function inspectJob(
  folder: string,
  limits: ReadingLimits = readingLimits(),
): Promise<Inspection> {
  const real = await realFolder(folder)
  const jobFile = await ownFile(real, { file: JOB_FILE, limit: limits.jobBytes, absent: 'refuse' })
  const logFile = await ownFile(real, { file: LOG_FILE, limit: limits.logBytes, absent: 'warn' })
  const yaml = jobFile.text === undefined ? undefined : withUsualSpellings(readYaml(JOB_FILE, jobFile.text))
  const parts = withoutDoubt(partsOf(yaml?.data), yaml?.problems ?? [])
  const named = yaml
    ? await namedFiles(real, parts, yaml)
    : { files: new Map<string, string>(), problems: [] }
  const log =
    logFile.text === undefined
      ? undefined
      : readLog(
          LOG_FILE,
          logFile.text,
          traceNames(parts, yaml),
          daysOfJob(jobSchema.safeParse(yaml?.data).data),
        )
  const ofPhotos = yaml ? await checkPhotos({ parts, yaml, most: limits.photoBytes }, named.files) : []
  const ofYaml = yaml ? jobProblems(yaml, parts) : []
  // Stages that contradict each other need not be held against the repairs as well.
  const ofStages =
    yaml && !ofYaml.some((p) => p.code === 'stage-order')
      ? stagesAgainstRepairs(parts.recordings, repairsOf(log?.rows ?? []), yaml)
      : []
  const ofContents = yaml ? await sameContents(parts, named.files, yaml) : []
  const ofJob = yaml
    ? [
        ...ofYaml,
        ...named.problems,
        ...ofPhotos,
        ...ofStages,
        ...ofContents,
        ...nothingAtAll(jobSchema.safeParse(yaml.data).data, log?.rows.length ?? 0, yaml),
        ...guessesLeft(JOB_FILE, jobFile.text ?? ''),
      ].sort(byPlace)
    : jobFile.problems
  return {
    folder: real,
    job: jobSchema.safeParse(yaml?.data).data,
    log: log?.rows ?? [],
    files: new Map([...jobFile.found, ...logFile.found, ...named.files]),
    lineOf: (path) => yaml?.keyPlace(path.split('.')).line,
    reviews: parts.reviews,
    problems: [
      ...capProblems(JOB_FILE, ofJob),
      ...capProblems(LOG_FILE, log ? datesOutside(log, parts) : logFile.problems),
    ],
  }
}

/** A key that stands twice leaves open which day is meant: nothing is held against it. */
const withoutDoubt = (parts: JobParts, problems: readonly Problem[]): JobParts =>
  problems.some((p) => p.code === 'duplicate-entry')
    ? { ...parts, opened: undefined, closed: undefined }
    : parts

/** Times of the repairs in the log, earliest first as written. */
const repairsOf = (log: readonly LogRow[]): string[] =>
  log
    .filter(({ cells }) => stepMeant(cells['step'] ?? '') === 'repair')
    .map(({ cells }) => cells['at']?.trim() ?? '')
    .filter(isMoment)

/** Warns of rows of another day than the job's. */
function* datesOutside({ rows, problems }: ReadLog, parts: JobParts): Generator<Problem> {
  yield* problems
  for (const { line, cells, columns } of rows) {
    const at = cells['at']?.trim() ?? ''
    const args = isMoment(at) ? outside(at.slice(0, 10), parts) : undefined
    if (args)
      yield problem(
        'date-outside',
        { file: LOG_FILE, line, column: columns?.['at'] ?? 1, severity: 'warn' },
        args,
      )
  }
}

/** What is wrong in job.yaml by itself. Where it is no mapping at all, that is all there is to say. */
function jobProblems(yaml: YamlFile, parts: JobParts): Problem[] {
  if (yaml.data === undefined && yaml.problems.length > 0) return [...yaml.problems]
  const ofSchema = [...yaml.problems, ...schemaProblems(jobSchema, yaml)]
  return isMapping(yaml) ? [...ofSchema, ...CHECKS.flatMap((check) => [...check(parts, yaml)])] : ofSchema
}

/** A job without a capture is reported from its log; without either there is nothing to report. */
const nothingAtAll = (job: Job | undefined, rows: number, yaml: YamlFile): Problem[] =>
  job !== undefined && job.captures.length === 0 && rows === 0
    ? [
        problem('wrong-value', yaml.valuePlace(['captures']), {
          key: 'captures',
          found: '[]',
          expected: 'phrase.captures-or-log',
        }),
      ]
    : []

const isMapping = ({ data }: YamlFile): boolean =>
  typeof data === 'object' && data !== null && !Array.isArray(data)

const byPlace = (a: Problem, b: Problem): number =>
  (a.line ?? 0) - (b.line ?? 0) || (a.column ?? 0) - (b.column ?? 0)

/** The traces a log may name, captures among them (their events tell the speed); undefined where job.yaml cannot say. */
function traceNames({ files }: JobParts, yaml: YamlFile | undefined): string[] | undefined {
  if (!yaml || !isMapping(yaml)) return undefined
  return files.filter((f) => f.kind !== 'photos').map((f) => f.file)
}

async function realFolder(folder: string): Promise<string> {
  try {
    const real = await realpath(folder)
    const found = await stat(real)
    if (found.isDirectory()) return real
    if (found.isFile()) {
      if (basename(real) === JOB_FILE) return dirname(real)
      throw new JobError([problem('file-not-folder', { file: folder }, { path: folder })])
    }
  } catch (error) {
    if (error instanceof JobError) throw error
    const cause = error as NodeJS.ErrnoException
    const missing = cause.code === 'ENOENT' || cause.code === 'ENOTDIR'
    if (!missing)
      throw new JobError(
        [problem('unreadable-file', { file: folder }, { path: folder, why: reasonOf(cause) })],
        { cause },
      )
  }
  throw new JobError([problem('not-a-folder', { file: folder }, { path: folder })])
}
