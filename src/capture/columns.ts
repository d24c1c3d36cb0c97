import { problem, type Problem } from '../problems/problem.ts'
import { UNITS_OF } from '../job/checks/channels.ts'
import type { CaptureEntry, ChannelEntry, TimeUnit, TraceEntry } from '../job/schema.ts'
import type { Channel, Dialect } from './capture.ts'
import { furtherFrames } from './frame-columns.ts'
import { nameAndUnit, unitOf } from './header-units.ts'
import { near } from '../problems/nearest.ts'

type Entry = CaptureEntry | TraceEntry

/** Lengths of the time units a job can name, s. */
export const UNIT_S: Readonly<Record<TimeUnit, number>> = { s: 1, ms: 1e-3, us: 1e-6, ns: 1e-9 }

/** A channel of the job and the column that holds it. */
export interface ChannelColumn {
  entry: ChannelEntry
  /** 0-based. */
  index: number
  /** Columns that hold its later frames, 0-based, in order. */
  later: readonly number[]
  name: string
  unit: Channel['unit']
  /** Figure in the file times this is the value in `unit`. */
  factor: number
}

/** Where the job's channels and time are found in a file. */
export interface ColumnPlan {
  time: { index: number; name: string; unitS: number } | undefined
  channels: readonly ChannelColumn[]
  warnings: readonly Problem[]
}

/** Unit of a channel as decoded, and how many of it one of the job's unit is. */
function baseUnit(entry: ChannelEntry): { unit: Channel['unit']; perUnit: number } {
  switch (entry.unit) {
    case 'V':
      return entry.carries === 'secondary' ? { unit: 'kV', perUnit: 1e-3 } : { unit: 'V', perUnit: 1 }
    case 'mV':
      return entry.carries === 'secondary' ? { unit: 'kV', perUnit: 1e-6 } : { unit: 'V', perUnit: 1e-3 }
    case 'kV':
      return entry.carries === 'secondary' ? { unit: 'kV', perUnit: 1 } : { unit: 'V', perUnit: 1e3 }
    case 'A':
      return { unit: 'A', perUnit: 1 }
    case 'mA':
      return { unit: 'A', perUnit: 1e-3 }
    case 'rpm':
      return { unit: 'rpm', perUnit: 1 }
    case 'Hz':
      return { unit: 'Hz', perUnit: 1 }
  }
}

/**
 * Finds the columns the job names and checks the units written in the file against the job's.
 * @returns the plan, or every problem: `unknown-column`, `duplicate-entry`, `header-mismatch`, `wrong-unit`
 */
export function planColumns(
  entry: Entry,
  dialect: Dialect,
): { ok: true; plan: ColumnPlan } | { ok: false; problems: readonly Problem[] } {
  const found = new ColumnFinder(entry.file, dialect)
  const time = 'column' in entry.time ? found.time(entry.time) : undefined
  const channels = found.withFrames(
    entry.channels.map((channel) => found.channel(channel)).filter((c) => c !== undefined),
    { time, mayBeFound: 'engine' in entry },
  )
  if (found.problems.some((p) => p.severity === 'refuse')) return { ok: false, problems: found.problems }
  return { ok: true, plan: { time, channels, warnings: found.problems } }
}

class ColumnFinder {
  readonly problems: Problem[] = []
  readonly #file: string
  readonly #dialect: Dialect

  constructor(file: string, dialect: Dialect) {
    this.#file = file
    this.#dialect = dialect
  }

  time(time: { column: string | number; unit: TimeUnit }): ColumnPlan['time'] {
    const index = this.#index(time.column)
    if (index === undefined) return undefined
    const name = this.#name(index)
    const written = this.#written(index)
    if (written && written.unit !== time.unit) {
      this.#wrongUnit({ index, name, declared: time.unit, written }, 'refuse')
    }
    return { index, name, unitS: UNIT_S[time.unit] }
  }

  channel(entry: ChannelEntry): ChannelColumn | undefined {
    if (!UNITS_OF[entry.carries].includes(entry.unit)) {
      this.problems.push(
        problem(
          'wrong-unit',
          { file: this.#file },
          {
            column: String(entry.column),
            unit: entry.unit,
            expected: UNITS_OF[entry.carries].join(', '),
            found: entry.unit,
          },
        ),
      )
    }
    const index = this.#index(entry.column)
    if (index === undefined) return undefined
    const name = this.#name(index)
    const written = this.#written(index)
    if (written && written.unit !== entry.unit) {
      // A stated scale may well turn one unit into the other (a pickup that gives 1 V for 1 kV): shown, not refused.
      this.#wrongUnit({ index, name, declared: entry.unit, written }, entry.scale === 1 ? 'refuse' : 'warn')
    }
    const { unit, perUnit } = baseUnit(entry)
    return { entry, index, later: [], name, unit, factor: entry.scale * perUnit }
  }

  /**
   * Adds the columns of later frames: those the job names, else those the file shows. Every channel has as many frames,
   * but one that has none stands for no signal of frames, and is a problem.
   */
  withFrames(
    channels: readonly ChannelColumn[],
    { time, mayBeFound }: { time: ColumnPlan['time']; mayBeFound: boolean },
  ): ChannelColumn[] {
    const taken = new Set([...channels.map((c) => c.index), ...(time ? [time.index] : [])])
    const framed = channels.map((channel) => ({
      ...channel,
      later: this.#later(channel, { taken, mayBeFound }),
    }))
    const most = Math.max(0, ...framed.map((c) => c.later.length))
    const short = framed.find((c) => c.later.length !== most)
    if (!short) return framed
    this.problems.push(
      problem(
        'frame-columns',
        { file: this.#file, ...this.#headerPlace(), column: short.index + 1 },
        { column: short.name, found: short.later.length + 1, expected: most + 1 },
      ),
    )
    return framed
  }

  #later(
    { entry, index }: ChannelColumn,
    { taken, mayBeFound }: { taken: ReadonlySet<number>; mayBeFound: boolean },
  ): number[] {
    if (entry.to_column === undefined) return mayBeFound ? furtherFrames(this.#dialect, index, taken) : []
    const last = this.#index(entry.to_column) ?? index
    const every = entry.column_step ?? 1
    return Array.from(
      { length: Math.max(0, Math.floor((last - index) / every)) },
      (_, i) => index + (i + 1) * every,
    )
  }

  #wrongUnit(
    about: {
      index: number
      name: string
      declared: string
      written: { unit: string; line: number | undefined }
    },
    severity: 'refuse' | 'warn',
  ): void {
    const { index, name, declared, written } = about
    const line = written.line === undefined ? {} : { line: written.line }
    this.problems.push(
      problem(
        'wrong-unit',
        { file: this.#file, ...line, column: index + 1, severity },
        { column: name, unit: declared, expected: declared, found: written.unit },
      ),
    )
  }

  /** The unit the file itself gives a column: the units row first, else the header. */
  #written(index: number): { unit: string; line: number | undefined } | undefined {
    const { unitsRow, header, headerLine } = this.#dialect
    const inRow = unitsRow?.[index]
    const rowUnit = inRow === undefined ? undefined : unitOf(inRow)
    if (rowUnit !== undefined)
      return { unit: rowUnit, line: headerLine === undefined ? undefined : headerLine + 1 }
    const inHeader = header?.[index]
    const unit = inHeader === undefined ? undefined : nameAndUnit(inHeader).unit
    return unit === undefined ? undefined : { unit, line: headerLine }
  }

  #name(index: number): string {
    return this.#dialect.header?.[index] || String(index + 1)
  }

  /** A number is a column's place, whether there is a header or not; a name is looked for in the header. */
  #index(column: string | number): number | undefined {
    const { columns, header } = this.#dialect
    if (typeof column === 'number') return column <= columns ? column - 1 : this.#unknown(column)
    const wanted = column.trim().normalize()
    const names = (header ?? []).map((name) => name.normalize())
    const matches = (test: (name: string) => boolean) =>
      names.flatMap((name, index) => (test(name) ? [index] : []))
    const exact = matches((name) => name === wanted)
    const indices = exact.length > 0 ? exact : matches((name) => nameAndUnit(name).name === wanted)
    if (indices.length === 1) return indices[0]
    if (indices.length === 0) return this.#unknown(column)
    this.problems.push(
      problem(
        'duplicate-entry',
        { file: this.#file, ...this.#headerPlace() },
        { key: column, found: `columns ${indices.map((index) => index + 1).join(', ')}` },
      ),
    )
    return undefined
  }

  #headerPlace(): { line?: number } {
    const { headerLine } = this.#dialect
    return headerLine === undefined ? {} : { line: headerLine }
  }

  #unknown(column: string | number): undefined {
    const { header, columns, mismatchedHeader } = this.#dialect
    if (!header && mismatchedHeader && typeof column === 'string') {
      if (!this.problems.some((p) => p.code === 'header-mismatch')) {
        this.problems.push(
          problem(
            'header-mismatch',
            { file: this.#file, line: mismatchedHeader.line },
            { found: mismatchedHeader.cells, expected: columns },
          ),
        )
      }
      return undefined
    }
    const names = header ?? Array.from({ length: columns }, (_, i) => String(i + 1))
    this.problems.push(
      problem(
        'unknown-column',
        { file: this.#file, ...this.#headerPlace() },
        { column: String(column), nearest: near(String(column), names), columns: names.join(', ') },
      ),
    )
    return undefined
  }
}
