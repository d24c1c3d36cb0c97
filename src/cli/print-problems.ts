import { isAbsolute } from 'node:path'
import type { JobOutcome } from '../batch/job-outcome.ts'
import { visible } from '../problems/control-characters.ts'
import { PASSING } from '../problems/passing.ts'
import type { Problem } from '../problems/problem.ts'
import type { Texts } from '../texts/messages.ts'
import { say } from '../texts/say.ts'
import { sayProblem } from '../texts/say-problem.ts'
import { EXIT } from './exit-codes.ts'

/** Prints one line a problem on standard error: folder, file, line, what is wrong, what to do, and the code that `explain` takes. */
export function printProblems(
  texts: Texts,
  folder: string,
  problems: readonly Problem[],
  stack?: string,
): void {
  for (const [p, ...others] of alike(problems)) {
    // A folder that is none is named by itself.
    const within = isAbsolute(p.file) ? '' : `${visible(folder)}/`
    process.stderr.write(
      `  ${p.severity === 'warn' ? 'note' : 'error'}: ${within}${sayProblem(texts, p)} [${p.code}]\n`,
    )
    if (others.length > 0)
      process.stderr.write(
        `    ${say(texts, 'batch.same-rows', { count: others.length, lines: linesOf(others) })}\n`,
      )
  }
  if (stack !== undefined && problems.some((p) => p.code === 'internal-error'))
    process.stderr.write(`${stack}\n`)
}

/** The same said of several rows, together: one word all over a column is one mistake. */
function alike(problems: readonly Problem[]): (readonly [Problem, ...Problem[]])[] {
  const groups = new Map<string, [Problem, ...Problem[]]>()
  for (const [i, p] of problems.entries()) {
    const { code, file, line, column, args } = p
    const key = line === undefined ? String(i) : JSON.stringify([code, file, column, args])
    const group = groups.get(key)
    if (group) group.push(p)
    else groups.set(key, [p])
  }
  return [...groups.values()]
}

/** Lines named at most. */
const MOST_LINES = 6
const linesOf = (problems: readonly Problem[]): string => {
  const lines = problems.map(({ line }) => String(line))
  return lines.length > MOST_LINES ? [...lines.slice(0, MOST_LINES), '…'].join(', ') : lines.join(', ')
}

const mayPass = (p: Problem): boolean =>
  p.code === 'changed-while-read' || ('why' in p.args && PASSING.has(p.args.why))

/**
 * The exit code that says most about these outcomes: our own fault, then a call that was stopped, then what may pass,
 * then an output that cannot be written, then bad input.
 *
 * @param stoppedBy  the signal that ended the call early, if one did
 */
export function exitCodeOf(outcomes: readonly JobOutcome[], stoppedBy?: 'SIGINT' | 'SIGTERM'): number {
  const invalid = outcomes.filter((o) => o.state === 'invalid')
  const refusals = invalid.flatMap((o) => o.problems.filter((p) => p.severity === 'refuse'))
  const codes = new Set(refusals.map((p) => p.code))
  if (codes.has('internal-error')) return EXIT.internal
  if (outcomes.some((o) => o.state === 'skipped'))
    return stoppedBy === 'SIGINT' ? EXIT.interrupted : EXIT.tryAgain
  if (refusals.some(mayPass)) return EXIT.tryAgain
  if (codes.has('cannot-write') || codes.has('output-exists')) return EXIT.cannotWrite
  if (invalid.length === 0) return EXIT.done
  return invalid.every((o) =>
    o.problems.every((p) => p.code === 'not-a-folder' || p.code === 'file-not-folder'),
  )
    ? EXIT.noInput
    : EXIT.invalidJob
}
