import type { ProblemArgs, ProblemCode } from './codes.ts'

/** `refuse` stops the job; `warn` is printed and shown in the report. */
export type Severity = 'refuse' | 'warn'

/** One thing wrong with the input: a code, a place, and the arguments of its sentence. */
export interface Problem<C extends ProblemCode = ProblemCode> {
  code: C
  severity: Severity
  /** Path as the job names it, relative to the job folder. */
  file: string
  /** 1-based line of the file, where there is one. */
  line?: number
  /** 1-based column (character or CSV field) where there is one. */
  column?: number
  args: ProblemArgs[C]
}

/** Builds a problem so that code and arguments are checked against each other. */
export function problem<C extends ProblemCode>(
  code: C,
  place: { file: string; line?: number; column?: number; severity?: Severity },
  args: ProblemArgs[C],
): Problem {
  const { file, line, column, severity = 'refuse' } = place
  const built: Problem<C> = { code, severity, file, args }
  if (line !== undefined) built.line = line
  if (column !== undefined) built.column = column
  return built as unknown as Problem
}

/** Thrown once per job with every problem found in it; the first mistake does not hide the next. */
export class JobError extends Error {
  readonly problems: readonly Problem[]
  constructor(problems: readonly Problem[], options?: ErrorOptions) {
    super(problems.map((p) => `${p.file}${p.line ? `:${p.line}` : ''}: ${p.code}`).join('; '), options)
    this.name = 'JobError'
    this.problems = problems
  }
}
