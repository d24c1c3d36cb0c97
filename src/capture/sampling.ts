import { problem, type Problem } from '../problems/problem.ts'
import { framesByTime, type Frame, type FramedClock } from './frames.ts'
import type { OddStep, TimeFindings } from './time-check.ts'

/** Odd steps a capture may have and still be read, each of them shown; with more its clock cannot be trusted. */
const MAX_ODD_STEPS = 10
/** Share of the capture's length that may be missing. */
const MAX_MISSING_SHARE = 0.01
/** A step of less than this share of the usual one is a repeated stamp; one of more than the other is a gap. */
const REPEAT_SHARE = 0.5
const GAP_SHARE = 1.5
/** Change of the rate within a file that no recorder's clock has: a thousandth, over stretches of so many blocks. */
const MAX_DRIFT = 1e-3
const STRETCH_BLOCKS = 64
/** Odd steps that a rate just off the stamps' last digit makes come again and again; one or two are real. */
const BEATS = 3

/** Doubt about the rate, from rounded stamps, that is told: it shows beside the uncertainty of a burn time. And that refuses. */
const COARSE_SHARE = 5e-4
const USELESS_SHARE = 0.01

/** The even clock of a recording, s. */
export interface Clock {
  startS: number
  sampleS: number
  /** Places where the clock jumps: `row` is the first row after it, `extraS` what its step has beyond `sampleS` (negative for a repeated stamp). */
  jumps: readonly { row: number; extraS: number }[]
  /** Frames of a triggered recorder: each begins at row 0 or at a jump. Empty where the record is one. */
  frames: readonly Frame[]
}

/** The clock, or why there is none; warnings either way. */
export interface Sampling {
  clock: Clock | undefined
  problems: readonly Problem[]
  evidence: readonly string[]
}

/**
 * The even clock behind a time column. Stamps off it by rounding alone are even; a few gaps and repeats are kept as
 * jumps and shown; stretches long enough for whole events are frames; time running back otherwise, many odd steps or a
 * changing rate are refused.
 *
 * @param found   what the column showed, in its own unit of `unitS` seconds
 * @param about   file and name of the column
 */
export function evenClock(
  found: TimeFindings,
  about: { file: string; unitS: number; column: number },
): Sampling {
  const back = backwards(found, about)
  if (back)
    return framed(framesByTime(found, about.unitS)) ?? { clock: undefined, problems: [back], evidence: [] }
  const span = found.last - found.first
  if (!(found.rows >= 2 && span > 0))
    return { clock: undefined, problems: [noTime(found, about)], evidence: [] }
  const overall = span / (found.rows - 1)
  const mayBeRounding =
    found.rounded || (found.odd.count >= BEATS && found.odd.count === found.odd.listed.length)
  if (mayBeRounding && onlyRounding(found, overall)) {
    const coarse = found.rounded ? coarseStamps(found, about) : undefined
    const clock = coarse?.severity === 'refuse' ? undefined : clockOf(found, about, [])
    return { clock, problems: coarse ? [coarse] : [], evidence: evidenceOf(found, about) }
  }
  if (found.step === 0) return { clock: undefined, problems: [pairedStamps(found, about)], evidence: [] }
  const { listed } = found.odd
  const extra = listed.map((step) => step.after - step.before - found.step)
  const missing = extra.reduce((sum, each) => sum + Math.abs(each), 0)
  const most = found.odd.count * 2 >= found.rows - 1
  const uneven = most || found.odd.count > MAX_ODD_STEPS || missing > MAX_MISSING_SHARE * span
  if (uneven) {
    const frames = framed(framesByTime(found, about.unitS))
    if (frames) return frames
  }
  const drift = uneven ? undefined : driftProblem(found, about, found.rounded)
  const problems = [...oddProblems(found, about, uneven ? 'refuse' : 'warn'), ...(drift ? [drift] : [])]
  if (uneven || drift) return { clock: undefined, problems, evidence: [] }
  return { clock: clockOf(found, about, listed), problems, evidence: evidenceOf(found, about) }
}

const framed = (clock: FramedClock | undefined): Sampling | undefined =>
  clock && { clock, problems: [], evidence: [`frames ${clock.frames.length}`] }

/** The problem of a time column that runs back, if it does. */
export function backwards(found: TimeFindings, about: { file: string; column: number }): Problem | undefined {
  const {
    count,
    listed: [first],
  } = found.backwards
  return (
    first &&
    problem(
      'time-backwards',
      { file: about.file, line: first.line, column: about.column },
      { before: String(first.before), after: String(first.after), count },
    )
  )
}

function noTime(found: TimeFindings, about: { file: string; unitS: number; column: number }): Problem {
  if (found.rows < 2) return problem('no-data-rows', { file: about.file }, { path: about.file })
  return problem(
    'time-repeat',
    { file: about.file, column: about.column },
    { at: secondsText(found.first, about), count: found.rows - 1 },
  )
}

/**
 * Most rows have the stamp of the row before them, though the stamps are fine enough: a recorder that wrote each twice,
 * or two recordings laid side by side. The steps between are no gaps.
 */
function pairedStamps(found: TimeFindings, about: { file: string; unitS: number; column: number }): Problem {
  const { first } = found
  return problem(
    'time-repeat',
    { file: about.file, column: about.column },
    { at: secondsText(first, about), count: found.rows - 1 - found.odd.count },
  )
}

/** Every stamp that was kept lies on the line through first and last, to the last digit written. */
function onlyRounding(found: TimeFindings, step: number): boolean {
  const near = (value: number, row: number) => Math.abs(value) <= 1.01 * found.resolutionAt(row) + 0.1 * step
  return (
    found.odd.listed.every((odd) => near(odd.after - odd.before - step, odd.row)) &&
    found.blocks.stamps.every((stamp, i) =>
      near(stamp - found.first - i * found.blocks.rows * step, i * found.blocks.rows),
    )
  )
}

function clockOf(found: TimeFindings, about: { unitS: number }, odd: readonly OddStep[]): Clock {
  const regular = odd.reduce((span, step) => span - (step.after - step.before), found.last - found.first)
  const step = regular / (found.rows - 1 - odd.length)
  return {
    startS: found.first * about.unitS,
    sampleS: step * about.unitS,
    jumps: odd.map(({ row, before, after }) => ({ row, extraS: (after - before - step) * about.unitS })),
    frames: [],
  }
}

/**
 * Stamps rounded so coarsely that first and last of them do not give the rate: expanded uncertainty (k = 2) of their
 * distance, each being off by half its last digit at most (rectangular, JCGM 100 4.3.7), as a share of it.
 */
function coarseStamps(
  found: TimeFindings,
  about: { file: string; unitS: number; column: number },
): Problem | undefined {
  const digit = found.resolutionAt(found.rows - 1)
  const span = found.last - found.first
  const share = (2 * Math.SQRT2 * digit) / Math.sqrt(12) / span
  if (share <= COARSE_SHARE) return undefined
  return problem(
    'time-coarse',
    { file: about.file, column: about.column, severity: share > USELESS_SHARE ? 'refuse' : 'warn' },
    {
      digit: secondsText(digit, about),
      length: secondsText(span, about),
      percent: Number((100 * share).toPrecision(2)),
    },
  )
}

/** The rate of every stretch of rows against the whole, jumps taken out; or that stamps stray though no step is odd. */
function driftProblem(
  found: TimeFindings,
  about: { file: string; unitS: number; column: number },
  strays: boolean,
): Problem | undefined {
  const usual = clockOf(found, about, found.odd.listed).sampleS / about.unitS
  const rates = stretchRates(found, usual)
  const digitShare = (i: number) =>
    (2 * found.resolutionAt(i * STRETCH_BLOCKS * found.blocks.rows)) / (STRETCH_BLOCKS * found.blocks.rows)
  const off = rates.flatMap((rate, i) =>
    Math.abs(rate - usual) > MAX_DRIFT * usual + digitShare(i) ? [i] : [],
  )
  if (off.length === 0 && !strays) return undefined
  return problem(
    'time-uneven',
    { file: about.file, column: about.column },
    {
      step: secondsText(usual, about),
      shortest: secondsText(Math.min(usual, ...rates), about),
      longest: secondsText(Math.max(usual, ...rates), about),
      count: Math.max(1, off.length),
    },
  )
}

/** Mean step of every stretch of rows, jumps taken out. */
function stretchRates(found: TimeFindings, usual: number): number[] {
  const rows = found.blocks.rows * STRETCH_BLOCKS
  const ends = found.blocks.stamps.filter((_, i) => i % STRETCH_BLOCKS === 0)
  return ends.slice(1).map((stamp, i) => {
    const jumps = found.odd.listed.filter(({ row }) => row > i * rows && row <= (i + 1) * rows)
    const extra = jumps.reduce((sum, step) => sum + (step.after - step.before - usual), 0)
    return (stamp - ends[i]! - extra) / rows
  })
}

/** Gaps, repeats and other odd steps, one problem each kind at its first place. */
function oddProblems(
  found: TimeFindings,
  about: { file: string; unitS: number; column: number },
  severity: 'refuse' | 'warn',
): Problem[] {
  const { listed, count } = found.odd
  const share = (step: OddStep) => (step.after - step.before) / found.step
  const gaps = listed.filter((step) => share(step) > GAP_SHARE)
  const repeats = listed.filter((step) => share(step) < REPEAT_SHARE)
  const others = listed.filter((step) => !gaps.includes(step) && !repeats.includes(step))
  const unlisted = count - listed.length
  const place = (step: OddStep) => ({ file: about.file, line: step.line, column: about.column, severity })
  const seconds = (value: number) => secondsText(value, about)
  const problems: Problem[] = []
  if (gaps[0]) {
    const length = seconds(gaps[0].after - gaps[0].before)
    problems.push(
      problem('time-gap', place(gaps[0]), {
        at: seconds(gaps[0].before),
        length,
        count: gaps.length + unlisted,
      }),
    )
  }
  if (repeats[0])
    problems.push(
      problem('time-repeat', place(repeats[0]), { at: seconds(repeats[0].after), count: repeats.length }),
    )
  if (others[0]) {
    const steps = others.map((step) => step.after - step.before)
    problems.push(
      problem('time-uneven', place(others[0]), {
        step: seconds(found.step),
        shortest: seconds(Math.min(...steps)),
        longest: seconds(Math.max(...steps)),
        count: others.length,
      }),
    )
  }
  return problems
}

/** A time of the file in seconds, in as many digits as tell it apart. */
const secondsText = (value: number, { unitS }: { unitS: number }): string =>
  `${Number((value * unitS).toPrecision(9))} s`

function evidenceOf(found: TimeFindings, about: { unitS: number }): string[] {
  const step = (found.last - found.first) / (found.rows - 1)
  const digit = found.resolutionAt(found.rows - 1)
  return digit > step ? [`time stamps to ${secondsText(digit, about)}, step ${secondsText(step, about)}`] : []
}
