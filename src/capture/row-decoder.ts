import { JobError, problem } from '../problems/problem.ts'
import type { NumberStyle } from './cell-text.ts'
import type { FigureCell } from './decimal-sign.ts'
import { decodeRows, newBatch, type Batch, type RowPlan } from './decode-rows.ts'
import type { OddRows } from './odd-row.ts'
import type { ProblemLog } from './problem-log.ts'
import type { Separator } from './split-row.ts'
import { decodeText } from './text-head.ts'
import { holdsLineEnd, isBlank, mayBeCut } from './cut-row.ts'

/** Rows decoded before they are handed on; small enough that a batch stays in the processor's cache. */
const BATCH_ROWS = 2048
const FIRST_CARRY_BYTES = 4096
/** A last row without line end is no row that was cut where it is longer than two, and this, or has line ends of another kind. */
const SPARE_BYTES = 64

/** Text from which a decimal sign is settled once the first one shows. */
const STYLE_BYTES = 32 * 1024

/**
 * The first sign within figures that the head of the file did not show: a decimal sign below whole numbers, whose meaning
 * has to be settled before any such figure is read, or a thousands mark where figures were small at first. Thrown to
 * whoever can start again with the answer; never leaves the folder.
 */
export class StyleWanted extends Error {
  /** The answer, where the row itself gives it. */
  readonly settled: { style: NumberStyle; evidence: string } | undefined
  /** Figures from there on, as text. */
  readonly cells: readonly FigureCell[]
  readonly line: number
  readonly separator: Separator
  constructor(found: {
    cells: readonly FigureCell[]
    line: number
    separator: Separator
    settled?: StyleWanted['settled']
  }) {
    super(`signs of figures to be settled in line ${found.line}`)
    this.settled = found.settled
    this.cells = found.cells
    this.line = found.line
    this.separator = found.separator
  }
}

/** Turns chunks of text, cut anywhere, into batches of decoded rows. Keeps one unfinished row, never the text. */
export class RowDecoder {
  readonly #plan: RowPlan
  readonly #odd: OddRows
  readonly #log: ProblemLog
  readonly #take: (batch: Batch) => void
  readonly #lineBytes: number
  readonly #batch: Batch
  #carry = new Uint8Array(FIRST_CARRY_BYTES)
  #carried = 0
  #lastRow = new Uint8Array(0)
  #rowsTaken = 0

  /** @param take  gets each full batch and must use it at once: it is filled again */
  constructor(
    plan: RowPlan,
    parts: { odd: OddRows; log: ProblemLog; firstLine: number; lineBytes: number },
    take: (batch: Batch) => void,
  ) {
    this.#plan = plan
    this.#odd = parts.odd
    this.#log = parts.log
    this.#lineBytes = parts.lineBytes
    this.#take = take
    this.#batch = newBatch(BATCH_ROWS, plan.width)
    this.#batch.line = parts.firstLine
  }

  /** @throws JobError `line-too-long` */
  push(chunk: Uint8Array): void {
    let from = 0
    if (this.#carried > 0) {
      const end = chunk.indexOf(this.#plan.lineEnd)
      this.#keep(end < 0 ? chunk : chunk.subarray(0, end + 1))
      if (end < 0) return
      const carried = this.#carried
      this.#carried = 0
      this.#decode(this.#carry, 0, carried)
      from = end + 1
    }
    const end = chunk.lastIndexOf(this.#plan.lineEnd) + 1
    if (end > from) this.#decode(chunk, from, end)
    if (chunk.length > Math.max(end, from)) this.#keep(chunk.subarray(Math.max(end, from)))
  }

  /** Decodes what is left and hands on the last batch. A last row without line end that may be cut is left out. */
  end(): void {
    if (this.#carried > 0) this.#endUnfinished()
    this.#flush()
    this.#odd.end(this.#rowsTaken)
  }

  #endUnfinished(): void {
    const row = this.#carry.subarray(0, this.#carried)
    const oneRow = row.length <= 2 * this.#lastRow.length + SPARE_BYTES && !holdsLineEnd(row)
    if (this.#lastRow.length > 0 && oneRow && !isBlank(row) && mayBeCut(row, this.#lastRow, this.#plan)) {
      const found = decodeText(row.subarray(0, 80), 'latin1').replace(/[^ -~]/g, ' ')
      this.#log.add(
        problem('row-cut-off', { file: this.#log.file, line: this.#batch.line, severity: 'warn' }, { found }),
      )
      return
    }
    this.#keep(Uint8Array.of(this.#plan.lineEnd))
    this.#decode(this.#carry, 0, this.#carried)
  }

  #keep(part: Uint8Array): void {
    const length = this.#carried + part.length
    if (length > this.#lineBytes) {
      throw new JobError([
        ...this.#log.list(),
        problem(
          'line-too-long',
          { file: this.#log.file, line: this.#batch.line },
          { limit: this.#lineBytes },
        ),
      ])
    }
    if (length > this.#carry.length) {
      const wider = new Uint8Array(Math.max(length, 2 * this.#carry.length))
      wider.set(this.#carry.subarray(0, this.#carried))
      this.#carry = wider
    }
    this.#carry.set(part, this.#carried)
    this.#carried = length
  }

  #decode(bytes: Uint8Array, from: number, to: number): void {
    const batch = this.#batch
    for (let at = from; at < to;) {
      at = decodeRows(bytes, { from: at, to }, this.#plan, batch)
      if (batch.rows === BATCH_ROWS) this.#flush()
      else if (at < to) at = this.#oddRow(bytes, at, this.#above(bytes, from, at))
    }
    const before = bytes.lastIndexOf(this.#plan.lineEnd, to - 2)
    this.#lastRow = new Uint8Array(bytes.subarray(Math.max(from, before + 1), to - 1)) // a copy: chunks are used again
  }

  /** The row before one that begins at `at`, in this piece or the one before. */
  #above(bytes: Uint8Array, from: number, at: number): Uint8Array {
    if (at <= from) return this.#lastRow
    const begin = at < from + 2 ? from : bytes.lastIndexOf(this.#plan.lineEnd, at - 2) + 1
    return bytes.subarray(Math.max(from, begin), at - 1)
  }

  /** One row that is not plain. @returns the start of the next */
  #oddRow(bytes: Uint8Array, at: number, above: Uint8Array): number {
    const end = bytes.indexOf(this.#plan.lineEnd, at)
    if (end - at > this.#lineBytes) {
      throw new JobError([
        ...this.#log.list(),
        problem(
          'line-too-long',
          { file: this.#log.file, line: this.#batch.line },
          { limit: this.#lineBytes },
        ),
      ])
    }
    const batch = this.#batch
    const row = bytes.subarray(at, end)
    const settled = this.#odd.showsThousands(row, above)
    if (settled === 'unsure') {
      const cells = [...this.#odd.figureCells(above), ...this.#odd.figureCells(row)]
      throw new StyleWanted({ cells, line: batch.line, separator: this.#odd.separator })
    }
    if (settled)
      throw new StyleWanted({ cells: [], line: batch.line, separator: this.#odd.separator, settled })
    if (this.#odd.showsUndecidedSign(bytes.subarray(at, end))) {
      const cells = this.#odd.figureCells(bytes.subarray(at, at + STYLE_BYTES))
      throw new StyleWanted({ cells, line: batch.line, separator: this.#odd.separator })
    }
    if (this.#odd.read(bytes.subarray(at, end), batch, this.#rowsTaken + batch.rows)) batch.rows++
    batch.line++
    if (batch.rows === BATCH_ROWS) this.#flush()
    return end + 1
  }

  #flush(): void {
    this.#rowsTaken += this.#batch.rows
    this.#odd.settle(this.#rowsTaken)
    if (this.#batch.rows > 0) this.#take(this.#batch)
    this.#batch.rows = 0
  }
}
