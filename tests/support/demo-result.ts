import { fileURLToPath } from 'node:url'
import { runJob } from '../../src/chain/run-job.ts'
import type { Result } from '../../src/records/result.ts'
import { loadTexts, type Language } from '../../src/texts/load-texts.ts'
import { PLAIN } from './plain-options.ts'

/** The result of a demo job of inputs/, in a language. */
export async function demoResult(job: string, language: Language): Promise<Result> {
  const folder = fileURLToPath(new URL(`../../inputs/${job}`, import.meta.url))
  return (await runJob(folder, PLAIN, loadTexts(language))).result
}
