import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { NO_STORE, type MeasuredStore } from '../../../src/chain/measured-store.ts'
import { recordJob, runJob, type JobOptions } from '../../../src/chain/run-job.ts'
import { loadTexts } from '../../../src/texts/load-texts.ts'
import type { JobFiles } from './compose.ts'

const texts = loadTexts('en')
const options: JobOptions = { page: 'A4', version: '0', embedCaptures: false, program: '', store: NO_STORE }

/** Writes a job folder for as long as `use` takes. */
async function withFolder<T>(files: JobFiles, use: (folder: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'composed-'))
  try {
    for (const [path, text] of files) {
      mkdirSync(dirname(join(folder, path)), { recursive: true })
      writeFileSync(join(folder, path), text)
    }
    return await use(folder)
  } finally {
    rmSync(folder, { recursive: true })
  }
}

/** The chain that ships on a job, up to its records. */
export const recordFolder = (files: JobFiles, store: MeasuredStore = NO_STORE) =>
  withFolder(files, (folder) => recordJob(folder, { ...options, store }, texts))

/** The same with charts and PDF. */
export const reportFolder = (files: JobFiles) => withFolder(files, (folder) => runJob(folder, options, texts))

/** Keeps measurements in memory: a job run twice in other orders measures once. */
export function memoryStore(): MeasuredStore {
  const kept = new Map<string, unknown>()
  return {
    find: async (key) => kept.get(JSON.stringify(key)),
    keep: (key, _, entry) => void kept.set(JSON.stringify(key), entry),
  }
}
