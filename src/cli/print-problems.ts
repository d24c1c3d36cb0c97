import type { JobOutcome } from '../batch/run-batch.ts'
import type { Problem } from '../problems/problem.ts'
import type { Texts } from '../texts/messages.ts'
import { sayProblem } from '../texts/say-problem.ts'
import { EXIT } from './exit-codes.ts'

/** Prints one line a problem on standard error: folder, file, line, what is wrong, what to do. */
export function printProblems(texts: Texts, folder: string, problems: readonly Problem[], cause?: unknown): void {
  for (const p of problems) {
    process.stderr.write(`  ${p.severity === 'warn' ? 'note' : 'error'}: ${folder}/${sayProblem(texts, p)}\n`)
  }
  if (problems.some((p) => p.code === 'internal-error') && cause instanceof Error) process.stderr.write(`${cause.stack}\n`)
}

/** The exit code that says most about these outcomes: our own fault before a full disk before bad input. */
export function exitCodeOf(outcomes: readonly JobOutcome[]): number {
  const codes = new Set(outcomes.flatMap((o) => (o.state === 'invalid' ? o.problems.filter((p) => p.severity === 'refuse').map((p) => p.code) : [])))
  if (codes.has('internal-error')) return EXIT.internal
  if (codes.has('cannot-write')) return EXIT.cannotWrite
  const invalid = outcomes.filter((o) => o.state === 'invalid')
  if (invalid.length === 0) return EXIT.done
  return invalid.every((o) => o.problems.every((p) => p.code === 'not-a-folder')) ? EXIT.noInput : EXIT.invalidJob
}
