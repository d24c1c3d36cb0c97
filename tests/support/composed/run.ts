import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { NO_STORE, type MeasuredStore } from '../../../src/chain/measured-store.ts'
import { recordJob, type JobOptions } from '../../../src/chain/run-job.ts'
import type { Taken } from '../../../src/chain/take-capture.ts'
import type { CaptureEntry } from '../../../src/job/schema.ts'
import { loadTexts } from '../../../src/texts/load-texts.ts'
import type { JobFiles } from './compose.ts'

const texts = loadTexts('en')
const options: JobOptions = { page: 'A4', version: '0', embedCaptures: false, program: '', store: NO_STORE }

/** Writes a job folder for as long as `use` takes. */
async function withFolder<T>(files: JobFiles, use: (folder: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'composed-'))
  try {
    for (const [path, content] of files) {
      mkdirSync(dirname(join(folder, path)), { recursive: true })
      writeFileSync(join(folder, path), typeof content === 'string' ? content : content.bytes())
    }
    return await use(folder)
  } finally {
    rmSync(folder, { recursive: true })
  }
}

/** The chain that ships on a job, up to its records. */
export const recordFolder = (files: JobFiles, store: MeasuredStore = NO_STORE) =>
  withFolder(files, (folder) => recordJob(folder, { ...options, store }, texts))

/**
 * Measurements of captures by what they were drawn from. Composed jobs share captures: a capture is measured by the chain
 * once, and where it comes again only what job.yaml says of when it was taken is put in anew.
 */
export class Library {
  readonly #kept = new Map<string, Taken>()

  /** The store of one job, and its files with stand-ins for the captures that are known. */
  of(files: JobFiles): { files: JobFiles; store: MeasuredStore } {
    const keyOf = (path: string, content = files.get(path)) =>
      typeof content === 'object' ? `${path} ${content.key}` : path
    const entryIn = (key: unknown) => (key as { entry: CaptureEntry }).entry
    return {
      files: new Map(
        [...files].map(([path, content]) => [
          path,
          this.#kept.has(keyOf(path, content)) ? `measured before: ${path}` : content,
        ]),
      ),
      store: {
        find: async (key) => {
          const { file, taken, engine } = entryIn(key)
          const kept = this.#kept.get(keyOf(file))
          return kept && { ...kept, record: { ...kept.record, taken, engine } }
        },
        keep: (key, _, taken) => void this.#kept.set(keyOf(entryIn(key).file), taken as Taken),
      },
    }
  }
}
