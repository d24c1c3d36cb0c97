import { JobError, problem, type Problem } from '../problems/problem.ts'

/** Problems of one file that are listed one by one; the rest are counted. */
const MAX_LISTED = 100

/** A fault of a cell or row whose repetition in the rows after it is one and the same problem. */
export type RowFault = 'not-a-number' | 'empty-cell' | 'out-of-range' | 'ragged-row' | 'nul-bytes' | 'rows-without-figures'

/** Collects the problems of one file. Faults of the same kind and column in rows one after another become one, with a count. */
export class ProblemLog {
  readonly file: string
  readonly #listed = { refuse: [] as Problem[], warn: [] as Problem[] }
  readonly #runs = new Map<string, { problem: Problem; lastLine: number; count: number }>()
  readonly #unlisted = { refuse: 0, warn: 0 }

  constructor(file: string) { this.file = file }

  /** Whether anything so far stops the file from being read. */
  get refuses(): boolean { return this.#listed.refuse.length > 0 }

  add(...problems: readonly Problem[]): void {
    for (const each of problems) {
      if (this.#listed[each.severity].length < MAX_LISTED) this.#listed[each.severity].push(each)
      else this.#unlisted[each.severity]++
    }
  }

  /** Adds a fault of a row, or lengthens the run it belongs to. `make` gets the length of the run. */
  addRow(fault: RowFault, at: { line: number; column?: number }, make: (count: number) => Problem): void {
    const key = `${fault}:${at.column ?? 0}`
    const run = this.#runs.get(key)
    if (run && at.line === run.lastLine + 1) {
      run.lastLine = at.line
      run.count++
      Object.assign(run.problem.args, { count: run.count })
      return
    }
    const made = make(1)
    this.add(made)
    this.#runs.set(key, { problem: made, lastLine: at.line, count: 1 })
  }

  /** @throws JobError with all problems, if any of them refuses */
  throwIfRefused(): void {
    if (this.refuses) throw new JobError(this.list())
  }

  /** All problems, those that refuse first, each kind in the order of lines. */
  list(): readonly Problem[] {
    return (['refuse', 'warn'] as const).flatMap((severity) => {
      const sorted = [...this.#listed[severity]].sort((a, b) => (a.line ?? 0) - (b.line ?? 0))
      const count = this.#unlisted[severity]
      return count === 0 ? sorted : [...sorted, problem('more-problems', { file: this.file, severity }, { count })]
    })
  }
}
