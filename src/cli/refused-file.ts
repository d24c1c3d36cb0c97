import type { JobError } from '../problems/problem.ts'
import { loadTexts } from '../texts/load-texts.ts'
import { sayProblem } from '../texts/say-problem.ts'
import { UsageError } from './usage-error.ts'

/** A file named on the command line that cannot be used, with every problem of it at its place. */
export function refusedFile(option: string, cause: JobError): UsageError {
  const texts = loadTexts('en')
  const problems = cause.problems.map((p) => `${sayProblem(texts, p)} [${p.code}]`)
  return new UsageError(`--${option}: ${problems.join('\n  ')}`, { cause })
}
