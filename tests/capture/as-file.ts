import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll } from 'vitest'
import { captureSchema, traceSchema, type CaptureEntry, type TraceEntry } from '../../src/job/schema.ts'
import { JobError, type Problem } from '../../src/problems/problem.ts'

/** A place for files of one test file, removed at its end. */
export function scratch(): (name: string, content: string | Uint8Array) => string {
  const folder = mkdtempSync(join(tmpdir(), 'burnline-capture-'))
  afterAll(() => rmSync(folder, { recursive: true, force: true }))
  return (name, content) => {
    const path = join(folder, name)
    writeFileSync(path, content)
    return path
  }
}

/** A capture of one secondary channel beside a time column, changed as asked. */
export const captureEntry = (change: Record<string, unknown> = {}): CaptureEntry =>
  captureSchema.parse({
    file: 'captures/zoo.csv',
    stage: 'before',
    condition: 'idle',
    engine: 'warm',
    taken: '2026-03-04T09:12:00Z',
    time: { column: 'time', unit: 's' },
    channels: [{ column: 'kv', carries: 'secondary', cylinders: 'all', unit: 'kV' }],
    ...change,
  })

/** A slow trace of engine speed. */
export const traceEntry = (change: Record<string, unknown> = {}): TraceEntry =>
  traceSchema.parse({
    file: 'traces/zoo.csv',
    time: { column: 'time', unit: 's' },
    channels: [{ column: 'rpm', carries: 'speed', unit: 'rpm' }],
    ...change,
  })

/** The problems a reading ends with. */
export async function problemsOf(reading: Promise<unknown>): Promise<readonly Problem[]> {
  try {
    await reading
  } catch (error) {
    if (error instanceof JobError) return error.problems
    throw error
  }
  throw new Error('the file was read without a problem')
}

/** `code:line:column` of each problem, `-` where there is none. */
export const places = (problems: readonly Problem[]): string[] =>
  problems.map(({ code, line, column }) => `${code}:${line ?? '-'}:${column ?? '-'}`)
