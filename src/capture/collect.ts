import type { Batch } from './decode-rows.ts'
import type { WantedColumn } from './odd-row.ts'
import { TimeCheck, type TimeFindings } from './time-check.ts'

/** How much an array grows when the rows expected were too few. */
const GROWTH = 1.5

/** A channel's array on its way: where its figures stand in a row and what they are multiplied by. */
export interface ChannelTarget {
  /** Place among the decoded columns. */
  slot: number
  /** File's figure to base unit. */
  factor: number
  /** Figures in the file that stand for a clipped sample (over-range words that are numbers). */
  overRange: readonly number[]
}

/** What one channel spans, in base units: finite values, and samples marked as clipped on either side by infinities. */
export interface ValueRange {
  low: number
  high: number
  lowMarks: number
  highMarks: number
  /** The finite values of each stretch of rows one after another, so that a search for the extremes can skip most. */
  stretches: readonly Stretch[]
}

/** Rows `from` up to `to` and what their finite values span, in base units. */
export interface Stretch {
  from: number
  to: number
  low: number
  high: number
}

/** Gathers decoded batches into one array a channel; the time column is followed, and kept only where asked. */
export class Collector {
  readonly #targets: readonly ChannelTarget[]
  readonly #timeSlot: number
  readonly #width: number
  readonly #time = new TimeCheck()
  readonly #data: Float32Array[]
  readonly #ranges: (Omit<ValueRange, 'stretches'> & { stretches: Stretch[] })[]
  #times: Float64Array | undefined
  #rows = 0

  constructor(
    columns: readonly WantedColumn[],
    targets: readonly ChannelTarget[],
    sizes: { rows: number; keepTimes: boolean },
  ) {
    this.#targets = targets
    this.#width = columns.length
    this.#timeSlot = columns.findIndex(({ isTime }) => isTime)
    this.#data = targets.map(() => new Float32Array(sizes.rows))
    this.#ranges = targets.map(() => ({
      low: Infinity,
      high: -Infinity,
      lowMarks: 0,
      highMarks: 0,
      stretches: [],
    }))
    if (sizes.keepTimes && this.#timeSlot >= 0) this.#times = new Float64Array(sizes.rows)
  }

  get rows(): number {
    return this.#rows
  }

  take(batch: Batch): void {
    const first = this.#rows
    this.#rows += batch.rows
    this.#targets.forEach((target, channel) => {
      if (this.#rows > this.#data[channel]!.length)
        this.#data[channel] = grown(this.#data[channel]!, this.#rows)
      if (target.overRange.length > 0) markOverRange(batch, target, this.#width)
      fill(
        { into: this.#data[channel]!, first, range: this.#ranges[channel]! },
        { ...target, width: this.#width },
        batch,
      )
    })
    if (this.#timeSlot < 0) return
    this.#time.push(batch, { slot: this.#timeSlot, width: this.#width })
    if (this.#times === undefined) return
    if (this.#rows > this.#times.length) this.#times = grown(this.#times, this.#rows)
    for (let i = 0; i < batch.rows; i++)
      this.#times[first + i] = batch.values[i * this.#width + this.#timeSlot]!
  }

  /** The arrays cut to the rows read, and what the time column showed, where there is one. */
  end(): {
    data: Float32Array[]
    ranges: readonly ValueRange[]
    times: Float64Array | undefined
    time: TimeFindings | undefined
  } {
    return {
      data: this.#data.map((data) => data.subarray(0, this.#rows)),
      ranges: this.#ranges,
      times: this.#times?.subarray(0, this.#rows),
      time: this.#timeSlot < 0 ? undefined : this.#time.end(),
    }
  }
}

/** Scales one column of a batch into its array and notes what it spans. */
function fill(
  {
    into,
    first,
    range,
  }: { into: Float32Array; first: number; range: Omit<ValueRange, 'stretches'> & { stretches: Stretch[] } },
  { slot, factor, width }: { slot: number; factor: number; width: number },
  batch: Batch,
): void {
  const { values, rows } = batch
  let low = Infinity
  let high = -Infinity
  for (let i = 0, k = slot; i < rows; i++, k += width) {
    const value = values[k]! * factor
    into[first + i] = value
    if (value > high) {
      if (value === Infinity) range.highMarks++
      else high = value
    }
    if (value < low) {
      if (value === -Infinity) range.lowMarks++
      else low = value
    }
  }
  range.stretches.push({ from: first, to: first + rows, low, high })
  if (low < range.low) range.low = low
  if (high > range.high) range.high = high
}

/** Puts infinity, on the side it stands for, instead of a marking figure, as the words get it. */
function markOverRange({ values, rows }: Batch, { slot, overRange }: ChannelTarget, width: number): void {
  for (let i = 0, k = slot; i < rows; i++, k += width) {
    if (overRange.includes(values[k]!)) values[k] = values[k]! < 0 ? -Infinity : Infinity
  }
}

function grown<A extends Float32Array | Float64Array>(array: A, rows: number): A {
  const wider = new (array.constructor as new (length: number) => A)(Math.ceil(rows * GROWTH))
  wider.set(array)
  return wider
}
