import type { Recording } from '../../src/capture/capture.ts'
import type { LogRow } from '../../src/job/job-folder.ts'
import { jobSchema, type Job } from '../../src/job/schema.ts'
import { loadLimits, type Limits } from '../../src/limits/limits.ts'
import { readTests } from '../../src/test-log/read-tests.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { problemSentence } from '../../src/texts/say-problem.ts'
import { say } from '../../src/texts/say.ts'

/** Rows of a log from CSV text without quotes; the first line names the columns. */
export function logRows(csv: string): LogRow[] {
  const [head, ...rows] = csv
    .trim()
    .split('\n')
    .map((line) => line.split(',').map((cell) => cell.trim()))
  return rows.map((cells, i) => ({
    line: i + 2,
    cells: Object.fromEntries(
      cells.map((cell, j) => [head![j]!, cell] as const).filter(([, cell]) => cell !== ''),
    ),
  }))
}

/** An invented job with what the log needs of it. */
export function logJob(parts: { fuel?: Job['engine']['fuel']; traces?: readonly string[] } = {}): Job {
  return jobSchema.parse({
    format: 1,
    work_order: 'T-1',
    opened: '2026-03-04',
    shop: { name: 'Invented shop' },
    technician: { name: 'Invented' },
    vehicle: {},
    engine: {
      cylinders: 4,
      firing_order: [1, 3, 4, 2],
      ignition: 'coil-per-cylinder',
      fuel: parts.fuel ?? 'E0',
    },
    complaint: 'invented',
    captures: [
      {
        file: 'captures/a.csv',
        stage: 'before',
        condition: 'idle',
        engine: 'warm',
        taken: '2026-03-04T09:00:00Z',
        time: { sample_rate_hz: 1000 },
        channels: [{ column: 1, carries: 'secondary', cylinders: 1, unit: 'kV' }],
      },
    ],
    traces: (parts.traces ?? []).map((file) => ({
      file,
      time: { column: 'time_s', unit: 's' },
      channels: [{ column: 'rpm', carries: 'speed', unit: 'rpm' }],
    })),
  })
}

/** A slow trace of engine speed as the capture layer hands it over. */
export function speedRecording(file: string, rpm: ArrayLike<number>, sampleS: number): Recording {
  const entry = {
    column: 'rpm',
    carries: 'speed' as const,
    unit: 'rpm' as const,
    scale: 1,
    polarity: 'auto' as const,
  }
  return {
    file,
    rows: rpm.length,
    startS: 0,
    sampleS,
    timesS: undefined,
    warnings: [],
    sha256: '',
    bytes: 0,
    dialect: {
      encoding: 'utf-8',
      separator: ',',
      decimal: '.',
      thousands: '',
      decimalSeen: true,
      lineEnd: '\n',
      headerLine: 1,
      mismatchedHeader: undefined,
      preambleLines: 0,
      header: ['rpm'],
      unitsRow: undefined,
      dataOffset: 0,
      dataLine: 2,
      columns: 1,
      evidence: [],
    },
    channels: [
      {
        entry,
        data: Float32Array.from(rpm),
        unit: 'rpm',
        quantum: 1,
        limits: undefined,
        limitsFrom: 'none',
        clippedSamples: 0,
      },
    ],
  }
}

const limits = loadLimits()
const texts = loadTexts('en')

/**
 * Reads a log with the limits as they stand, or others; every sentence of the tests and problems is said once, so that a missing
 * text or argument fails.
 */
export function readLog(
  csv: string,
  parts: { fuel?: Job['engine']['fuel']; recordings?: readonly Recording[]; limits?: Limits } = {},
) {
  const recordings = parts.recordings ?? []
  const job = logJob({ ...(parts.fuel ? { fuel: parts.fuel } : {}), traces: recordings.map((r) => r.file) })
  const result = readTests({
    log: logRows(csv),
    traces: new Map(recordings.map((r) => [r.file, r])),
    job,
    limits: parts.limits ?? limits,
  })
  for (const test of result.tests) for (const said of test.says) say(texts, said)
  for (const problem of result.problems) problemSentence(texts, problem)
  return result
}
