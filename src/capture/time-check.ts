import { median } from '../maths/median.ts'

/** Rows after which the usual step is first taken as known. */
const FIRST_ROWS = 4096
/** Rows between two stamps kept for looking back at the whole: 8 bytes for 64 rows. */
const BLOCK_ROWS = 64
/** Rows over which the finest digit written is followed: a format may trim zeros, or carry a fixed number of digits. */
const DIGIT_ROWS = 256
/** Odd steps kept with their place; a file with more is refused anyway. */
const MAX_ODD_STEPS = 4096
/**
 * Spread of a step about the usual one that is no sign of a missing or repeated row, as a share of the step.
 * A tenth of a sample is far below what any time read off the samples can show.
 */
const STEP_SPREAD = 0.1
/** A rounded stamp is off by half its last digit at either end of a step, and a little by binary fractions. */
const ROUNDING = 1.01
/** Steps off the usual one that may be gaps rather than rounding: so many, or this share of the first rows. */
const FEW = 2
const FEW_SHARE = 0.02
/** A unit in the last place of single precision: recorders that count in it print more digits than it holds. */
const SINGLE_ULP = 2 ** -23

/** A step between two rows that is not the usual one; times as in the file. */
export interface OddStep {
  row: number
  line: number
  before: number
  after: number
}

/** What the time column of a file showed, in the file's own unit. */
export interface TimeFindings {
  rows: number
  first: number
  last: number
  /** Usual step, from the first rows. */
  step: number
  /** True where stamps are rounded so coarsely that their steps change with it. */
  rounded: boolean
  /** Steps back in time: all of them counted, the first ones listed. */
  backwards: { count: number; listed: readonly OddStep[] }
  /** Other odd steps: all of them counted, the first ones listed. */
  odd: { count: number; listed: readonly OddStep[] }
  /** Stamp of every BLOCK_ROWS-th row, and the rows between them. */
  blocks: { stamps: readonly number[]; rows: number }
  /** Length of a stamp's last digit about a row. */
  resolutionAt: (row: number) => number
}

/** The part of a decoded batch the check reads. */
interface TimeBatch {
  rows: number
  values: Float64Array
  exponents: Int8Array
  lines: Int32Array
}

/** Follows a time column row by row in constant memory. Rows without a time (already a problem) are passed over. */
export class TimeCheck {
  #rows = 0
  #first = NaN
  #previous = NaN
  #step = NaN
  #low = NaN
  #high = NaN
  #startDigit = NaN
  #rounded = false
  #startStamps: number[] | undefined = []
  #startLines: number[] = []
  readonly #backwards: { count: number; listed: OddStep[] } = { count: 0, listed: [] }
  readonly #odd: { count: number; listed: OddStep[] } = { count: 0, listed: [] }
  readonly #finest: number[] = []
  #finestNow = Infinity
  readonly #stamps: number[] = []

  /** One batch: `values[i * width + slot]` is the time of row i, `exponents` likewise its last digit's power of ten. */
  push(batch: TimeBatch, at: { slot: number; width: number }): void {
    for (let i = 0; i < batch.rows;) {
      if (this.#rows % DIGIT_ROWS === 0) this.#turnDigits()
      if (this.#rows % BLOCK_ROWS === 0) this.#stamps.push(batch.values[i * at.width + at.slot]!)
      const stop = Math.min(batch.rows, i + BLOCK_ROWS - (this.#rows % BLOCK_ROWS))
      if (this.#startStamps === undefined) this.#follow(batch, at, { from: i, to: stop })
      else this.#start(batch, at, { from: i, to: stop })
      this.#rows += stop - i
      i = stop
    }
  }

  /** Rows after the usual step is known: everything but an odd step is dealt with here, in local variables. */
  #follow(
    batch: TimeBatch,
    { slot, width }: { slot: number; width: number },
    rows: { from: number; to: number },
  ): void {
    const { values, exponents } = batch
    const low = this.#low
    const high = this.#high
    let previous = this.#previous
    let finest = this.#finestNow
    for (let i = rows.from, k = i * width + slot; i < rows.to; i++, k += width) {
      const time = values[k]!
      const exponent = exponents[k]!
      if (exponent < finest) finest = exponent
      const step = time - previous
      if (!(step >= low && step <= high)) {
        this.#finestNow = finest
        this.#oddStep({
          row: this.#rows + i - rows.from,
          line: batch.lines[i]!,
          before: previous,
          after: time,
        })
      }
      previous = time
    }
    this.#previous = previous
    this.#finestNow = finest
  }

  /** The first rows are kept until they show the usual step. */
  #start(
    batch: TimeBatch,
    { slot, width }: { slot: number; width: number },
    rows: { from: number; to: number },
  ): void {
    for (let i = rows.from; i < rows.to; i++) {
      const time = batch.values[i * width + slot]!
      if (this.#rows + i === rows.from) this.#first = time
      this.#finestNow = Math.min(this.#finestNow, batch.exponents[i * width + slot]!)
      this.#startStamps!.push(time)
      this.#startLines.push(batch.lines[i]!)
      this.#previous = time
    }
    if (this.#startStamps!.length >= FIRST_ROWS) this.#settleStart()
  }

  end(): TimeFindings {
    this.#settleStart()
    this.#finest.push(this.#finestNow)
    const finest = this.#finest.slice(1)
    return {
      rows: this.#rows,
      first: this.#first,
      last: this.#previous,
      step: this.#step,
      rounded: this.#rounded,
      backwards: this.#backwards,
      odd: this.#odd,
      blocks: { stamps: this.#stamps, rows: BLOCK_ROWS },
      resolutionAt: (row) => resolution(finest, row),
    }
  }

  #turnDigits(): void {
    this.#finest.push(this.#finestNow)
    this.#finestNow = Infinity
  }

  /** Takes the usual step from the first rows, then looks at those rows with it. */
  #settleStart(): void {
    const stamps = this.#startStamps
    if (stamps === undefined) return
    this.#startStamps = undefined
    this.#startDigit = 10 ** Math.min(this.#finestNow, ...this.#finest)
    const usual = usualStep(stamps, this.#startDigit)
    this.#step = usual.step
    this.#rounded = usual.rounded
    const spread = STEP_SPREAD * usual.step + (usual.rounded ? ROUNDING * this.#startDigit : 0)
    this.#low = Math.max(0, usual.step - spread)
    this.#high = usual.step + spread
    for (let row = 1; row < stamps.length; row++) {
      const step = stamps[row]! - stamps[row - 1]!
      if (step >= this.#low && step <= this.#high) continue
      this.#oddStep({ row, line: this.#startLines[row]!, before: stamps[row - 1]!, after: stamps[row]! })
    }
    this.#startLines = []
  }

  #oddStep(found: OddStep): void {
    const step = found.after - found.before
    if (Number.isNaN(step)) return
    if (step < 0) {
      this.#backwards.count++
      if (this.#backwards.listed.length < MAX_ODD_STEPS) this.#backwards.listed.push(found)
      return
    }
    const digit = 10 ** Math.min(this.#finestNow, this.#finest.at(-1) ?? Infinity)
    const rounding = this.#rounded || digit > 1.5 * this.#startDigit ? digit : 0
    const allowed = STEP_SPREAD * this.#step + ROUNDING * Math.max(rounding, singlePrecision(found, digit))
    if (Math.abs(step - this.#step) <= allowed) return
    this.#odd.count++
    if (this.#odd.listed.length < MAX_ODD_STEPS) this.#odd.listed.push(found)
  }
}

/**
 * The usual step of the first rows, and whether the stamps are rounded so coarsely that their steps change with it.
 * A few steps off the median are gaps or repeats, and do not count; many are rounding, and average out.
 */
function usualStep(stamps: readonly number[], digit: number): { step: number; rounded: boolean } {
  const steps = stamps
    .slice(1)
    .map((stamp, i) => stamp - stamps[i]!)
    .filter((step) => Number.isFinite(step))
  const middle = median(steps)
  if (middle === undefined) return { step: NaN, rounded: false }
  const alike = steps.filter((step) => Math.abs(step - middle) <= STEP_SPREAD * Math.abs(middle))
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length
  if (middle > 0 && steps.length - alike.length <= Math.max(FEW, FEW_SHARE * steps.length))
    return { step: mean(alike), rounded: false }
  const near = steps.filter(
    (step) => Math.abs(step - middle) <= 2 * ROUNDING * digit + STEP_SPREAD * Math.abs(middle),
  )
  return { step: mean(near), rounded: true }
}

/** Grid of single precision at a stamp, where the text shows it was counted in that; else 0. */
function singlePrecision({ before, after }: OddStep, digit: number): number {
  const grid = Math.abs(after) * SINGLE_ULP
  const onGrid = (stamp: number) => Math.abs(stamp - Math.fround(stamp)) <= digit
  return digit <= 0.2 * grid && onGrid(before) && onGrid(after) ? grid : 0
}

/** Length of the last digit written about a row: the coarser of the stretch it is in and the next. */
function resolution(finest: readonly number[], row: number): number {
  const at = Math.floor(row / DIGIT_ROWS)
  const near = [finest[at], finest[at + 1]].filter((e) => e !== undefined && Number.isFinite(e)) as number[]
  return near.length === 0 ? 0 : 10 ** Math.max(...near)
}
