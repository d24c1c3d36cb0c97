import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { inspectJob } from '../../../src/job/inspect-job.ts'
import type { LogRow } from '../../../src/job/job-folder.ts'
import type { Job } from '../../../src/job/schema.ts'
import { loadLimits, type Limits } from '../../../src/limits/limits.ts'
import type { Problem } from '../../../src/problems/problem.ts'
import { readEntries } from '../../../src/test-log/log-entry.ts'
import { readTests } from '../../../src/test-log/read-tests.ts'
import { EXAMPLE_JOB, EXAMPLE_LOG, exampleFolder } from './example-job.ts'
import { JOB_PIECES } from './mutate.ts'
import { Finding } from './outcome.ts'
import type { MutatedReader } from './reader.ts'

/** A log with a row of every step, so that a mutation meets each reader. */
const WIDE_LOG = `${EXAMPLE_LOG}2026-03-04T09:40,cap,port 1,,idle,,,,,,,,,no response,,
2026-03-04T09:41,gas,,after,idle,CO,0.4,%vol,0,0.5,,,,,,
2026-03-04T09:41,gas,,after,idle,O2,0.9,%vol,,,,,,,,
2026-03-04T09:42,fuel-pressure,,,,key-on,350,kPa,330,370,,,,,,
2026-03-04T09:43,vacuum,,,idle,manifold,18,inHg,,,,,,,,
2026-03-04T09:44,compression,,,,cylinder 3,148,psi,130,,,,,,,
2026-03-04T09:45,code,,,,P0171,,,,,,,,,,
2026-03-04T09:46,airflow,,,idle,MAF,3.1,g/s,,,,,,,,
2026-03-04T09:47,smoke,intake joint,,,,,,,,,,,leak,,
2026-03-04T09:50,repair,intake joint,,,,,,,,,,,fixed,new gasket,
`

/** job.yaml, in a folder that is otherwise in order. */
export function jobReader(folder: string): MutatedReader {
  exampleFolder(folder, WIDE_LOG)
  return {
    name: 'job',
    seeds: [{ name: 'every key', bytes: Buffer.from(EXAMPLE_JOB) }],
    pieces: JOB_PIECES,
    read: async (bytes) => {
      writeFileSync(join(folder, 'job.yaml'), bytes)
      const { job, problems } = await inspectJob(folder)
      if (job === undefined && !problems.some((p) => p.severity === 'refuse'))
        throw new Finding('neither a job nor a refusal')
      if (job !== undefined) numbersStand(job, bytes)
      return problems
    },
  }
}

/** test-log.csv, read up to its tests. */
export function logReader(folder: string): MutatedReader {
  exampleFolder(folder, WIDE_LOG)
  const limits = loadLimits()
  return {
    name: 'log',
    seeds: [
      { name: 'every step', bytes: Buffer.from(WIDE_LOG) },
      { name: 'semicolons', bytes: Buffer.from(WIDE_LOG.replaceAll(',', ';')) },
    ],
    pieces: [...JOB_PIECES, ',,,', 'spray', 'P0171', '\n2026-03-04T09:40,note,'],
    read: async (bytes) => {
      writeFileSync(join(folder, 'test-log.csv'), bytes)
      return readLogWhole(folder, bytes, limits)
    },
  }
}

async function readLogWhole(folder: string, bytes: Buffer, limits: Limits): Promise<readonly Problem[]> {
  const { job, log, problems } = await inspectJob(folder)
  if (job === undefined || problems.some((p) => p.severity === 'refuse')) return problems
  const { tests, problems: ofCells } = readTests({ log, traces: new Map(), job, limits })
  if (!ofCells.some((p) => p.severity === 'refuse')) cellsStand(log, bytes)
  for (const test of tests) {
    const figures = Object.entries(test.computed).filter(
      ([, q]) => ![q.value, q.low, q.high].every(Number.isFinite),
    )
    if (figures.length > 0)
      throw new Finding(`${test.step}: ${figures[0]![0]} is ${JSON.stringify(figures[0]![1])}`)
  }
  return [...problems, ...ofCells]
}

/** Numbers that stand in the text as written, or are defaults of the schema. */
function numbersStand(job: Job, bytes: Buffer): void {
  const words = bytes.toString('utf8').split(/[\s,:;[\]{}"'&*!|>#%~]+/)
  const written = new Set([...words.map(Number), 1, 4])
  const walk = (value: unknown, path: string): void => {
    if (typeof value === 'number' && !(Number.isFinite(value) && written.has(value)))
      throw new Finding(`${path} is ${value}, which the text does not hold`)
    if (typeof value === 'object' && value !== null)
      for (const [key, inner] of Object.entries(value)) walk(inner, `${path}.${key}`)
  }
  walk(job, 'job')
}

/** A figure of an entry is the one its row holds. */
function cellsStand(log: readonly LogRow[], bytes: Buffer): void {
  const text = bytes
    .toString('utf8')
    .replace(/\r\n?/g, '\n')
    .replace(/^\ufeff/, '')
  // Where commas part cells a figure has no comma unless it is quoted; either way it is a word of one of the two splits.
  const words = (line: number): string[] => {
    const rest = text
      .split('\n')
      .slice(line - 1)
      .join('\n')
      .replaceAll('\u2212', '-')
    return [...rest.split(/[\s,;"]+/), ...rest.split(/[\s;"]+/).map((word) => word.replace(',', '.'))]
  }
  for (const [i, { entry }] of readEntries(log).entries()) {
    const row = log[i]!
    for (const value of [entry?.value, entry?.expectedLow, entry?.expectedHigh, entry?.fromS, entry?.toS]) {
      if (value === undefined) continue
      const standing = words(row.line).some((word) => word !== '' && Number(word) === value)
      if (!standing) throw new Finding(`line ${row.line}: ${value} does not stand there`)
    }
  }
}
