import { fileURLToPath } from 'node:url'
import { NO_STORE } from '../../src/chain/measured-store.ts'
import { runJob } from '../../src/chain/run-job.ts'
import type { Result } from '../../src/records/result.ts'
import { loadTexts, type Language } from '../../src/texts/load-texts.ts'

/** The result of a demo job of inputs/, in a language. */
export async function demoResult(job: string, language: Language): Promise<Result> {
  const folder = fileURLToPath(new URL(`../../inputs/${job}`, import.meta.url))
  const options = {
    page: 'A4',
    version: '0',
    embedCaptures: false,
    program: 'test',
    store: NO_STORE,
  } as const
  return (await runJob(folder, options, loadTexts(language))).result
}
