import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { NO_STORE } from '../../../src/chain/measured-store.ts'
import { recordJob, runJob, type JobOptions } from '../../../src/chain/run-job.ts'
import { loadTexts } from '../../../src/texts/load-texts.ts'

const texts = loadTexts('en')
const options: JobOptions = { page: 'A4', version: '0', embedCaptures: false, program: '', store: NO_STORE }

/** Writes a job folder for as long as `use` takes. */
async function withFolder<T>(
  files: ReadonlyMap<string, string>,
  use: (folder: string) => Promise<T>,
): Promise<T> {
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
export const recordFolder = (files: ReadonlyMap<string, string>) =>
  withFolder(files, (folder) => recordJob(folder, options, texts))

/** The same with charts and PDF. */
export const reportFolder = (files: ReadonlyMap<string, string>) =>
  withFolder(files, (folder) => runJob(folder, options, texts))
