import { JobError, problem, type Problem } from '../problems/problem.ts'

/** Problems of one file that are listed one by one; the rest are counted. */
const MAX_LISTED = 100

/** A fault of a cell or row whose repetition in the rows after it is one and the same problem. */
export type RowFault =
  | 'not-a-number'
  | 'not-a-time'
  | 'empty-cell'
  | 'out-of-range'
  | 'ragged-row'
  | 'line-ends-change'
  | 'nul-bytes'
  | 'rows-without-figures'

/** Where a fault stands, what was found there, and in how many rows from that line on. */
export interface FaultPlace {
  line: number
  column?: number
  text: string
  rows?: number
}

/** A fault of rows, at its first place. */
interface Run {
  problem: Problem
  lastLine: number
  count: number
}

/**
 * Collects the problems of one file. Faults of the same kind and column become one, with a count, where they stand in rows
 * one after another or hold the same text: a recorder that writes one word a hundred times has made one mistake.
 */
export class ProblemLog {
  readonly file: string
  readonly #listed = { refuse: [] as Problem[], warn: [] as Problem[] }
  readonly #runs = new Map<string, Run>()
  readonly #alike = new Map<string, Run>()
  readonly #unlisted = { refuse: 0, warn: 0 }

  constructor(file: string) {
    this.file = file
  }

  /** Whether anything so far stops the file from being read. */
  get refuses(): boolean {
    return this.#listed.refuse.length > 0
  }

  add(...problems: readonly Problem[]): void {
    for (const each of problems) {
      if (this.#listed[each.severity].length < MAX_LISTED) this.#listed[each.severity].push(each)
      else this.#unlisted[each.severity]++
    }
  }

  /** Adds a fault of a row, or counts it to the one it repeats. `make` gets how many there are; `text` is what was found. */
  addRow(fault: RowFault, at: FaultPlace, make: (count: number) => Problem): void {
    const { rows = 1 } = at
    const key = `${fault}:${at.column ?? 0}`
    const sameText = `${key}:${at.text}`
    const before = this.#runs.get(key)
    const run = before && at.line === before.lastLine + 1 ? before : this.#alike.get(sameText)
    if (run) {
      run.lastLine = at.line + rows - 1
      run.count += rows
      Object.assign(run.problem.args, { count: run.count })
      this.#runs.set(key, run)
      return
    }
    const made = { problem: make(rows), lastLine: at.line + rows - 1, count: rows }
    this.add(made.problem)
    this.#runs.set(key, made)
    // As many as are listed: a file in which every cell holds another word must not fill the memory.
    if (this.#alike.size < MAX_LISTED) this.#alike.set(sameText, made)
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
      return count === 0
        ? sorted
        : [...sorted, problem('more-problems', { file: this.file, severity }, { count })]
    })
  }
}
