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

/** Gathers decoded batches into one array a channel; the time column is followed, and kept only where asked. */
export class Collector {
  readonly #targets: readonly ChannelTarget[]
  readonly #timeSlot: number
  readonly #width: number
  readonly #time = new TimeCheck()
  readonly #data: Float32Array[]
  #times: Float64Array | undefined
  #rows = 0

  constructor(columns: readonly WantedColumn[], targets: readonly ChannelTarget[], sizes: { rows: number; keepTimes: boolean }) {
    this.#targets = targets
    this.#width = columns.length
    this.#timeSlot = columns.findIndex(({ isTime }) => isTime)
    this.#data = targets.map(() => new Float32Array(sizes.rows))
    if (sizes.keepTimes && this.#timeSlot >= 0) this.#times = new Float64Array(sizes.rows)
  }

  get rows(): number { return this.#rows }

  take(batch: Batch): void {
    const first = this.#rows
    this.#rows += batch.rows
    this.#targets.forEach((target, channel) => {
      if (this.#rows > this.#data[channel]!.length) this.#data[channel] = grown(this.#data[channel]!, this.#rows)
      const into = this.#data[channel]!
      fill(into, { first, slot: target.slot, width: this.#width, factor: target.factor }, batch)
      if (target.overRange.length > 0) markOverRange(into, first, { batch, target, width: this.#width })
    })
    if (this.#timeSlot < 0) return
    this.#time.push(batch, { slot: this.#timeSlot, width: this.#width })
    if (this.#times === undefined) return
    if (this.#rows > this.#times.length) this.#times = grown(this.#times, this.#rows)
    for (let i = 0; i < batch.rows; i++) this.#times[first + i] = batch.values[i * this.#width + this.#timeSlot]!
  }

  /** The arrays cut to the rows read, and what the time column showed, where there is one. */
  end(): { data: Float32Array[]; times: Float64Array | undefined; time: TimeFindings | undefined } {
    return {
      data: this.#data.map((data) => data.subarray(0, this.#rows)),
      times: this.#times?.subarray(0, this.#rows),
      time: this.#timeSlot < 0 ? undefined : this.#time.end(),
    }
  }
}

function fill(
  into: Float32Array, { first, slot, width, factor }: { first: number; slot: number; width: number; factor: number }, batch: Batch,
): void {
  const { values, rows } = batch
  for (let i = 0, k = slot; i < rows; i++, k += width) into[first + i] = values[k]! * factor
}

/** Infinity on the side a marking figure stands for, as for a marking word. */
function markOverRange(
  into: Float32Array, first: number, { batch, target, width }: { batch: Batch; target: ChannelTarget; width: number },
): void {
  for (let i = 0; i < batch.rows; i++) {
    const value = batch.values[i * width + target.slot]!
    if (target.overRange.includes(value)) into[first + i] = value * target.factor < 0 ? -Infinity : Infinity
  }
}

function grown<A extends Float32Array | Float64Array>(array: A, rows: number): A {
  const wider = new (array.constructor as new (length: number) => A)(Math.ceil(rows * GROWTH))
  wider.set(array)
  return wider
}
