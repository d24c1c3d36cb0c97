import { lagOneAutocorrelation } from '../maths/autocorrelation.ts'
import { lombScargle } from '../maths/lomb-scargle.ts'
import { mean } from '../maths/mean-sd.ts'
import { median } from '../maths/median.ts'
import { absent, measured, type Measured } from '../units/measured.ts'
import type { CycleSpeed } from './cycle-speeds.ts'

/** Peak-to-peak swing of the speed and its period; both absent where none stands out. */
export interface Swing {
  swing: Measured<'rpm'>
  period: Measured<'s'>
}

/** Fewest working cycles in which a period can stand out. */
const LEAST_CYCLES = 12
/** Periods looked for: at least this many must fit into the capture ... */
const LEAST_PERIODS = 2
/** ... and a period must last more than this many cycles (as 1 / this share of the cycle rate). */
const MOST_CYCLE_SHARE = 0.35
/** Frequencies tried per 1 / duration. */
const OVERSAMPLING = 8
/** A peak as high as found may come by chance in this share of steady captures. */
const FALSE_ALARM = 0.005

/**
 * Swing of an unsteady idle: the strongest sine in the unevenly sampled cycle speeds of all cylinders, kept only where
 * its power could hardly come by chance.
 *
 * The chance is that of the highest of m/2 independent frequencies for m working cycles (cylinders share the crankshaft
 * and count once), against noise of the colour that is left when the sine is taken out: a speed that merely wanders has
 * its power at low frequencies and must not pass for a swing. The height is corrected for the averaging over a cycle,
 * which flattens a sine by sin(x)/x, x = pi f T.
 *
 * @param byCylinder  cycle speeds of each cylinder, in order of time
 * @returns           rpm peak to peak and s; u (k = 1) as of a sine's amplitude and frequency in noise. Absent:
 *                    `too-few-events` below 12 cycles, `not-visible` where no period stands out.
 * @source            Scargle 1982, Astrophysical Journal 263, 835-853; first-order noise: Gilman et al. 1963, Journal of
 *                    the Atmospheric Sciences 20, 182-184; u of the frequency: Bretthorst 1988, Bayesian Spectrum Analysis, ch. 2
 */
export function findSwing(byCylinder: readonly (readonly CycleSpeed[])[]): Swing {
  const all = byCylinder.flat().toSorted((a, b) => a.atS - b.atS)
  const cycles = Math.max(0, ...byCylinder.map((series) => series.length))
  if (cycles < LEAST_CYCLES) return neither('too-few-events')
  const cycleS = median(all.map((c) => c.intervalS))!
  const spanS = all.at(-1)!.atS - all[0]!.atS + cycleS
  const hz = frequencies({
    from: LEAST_PERIODS / spanS,
    to: MOST_CYCLE_SHARE / cycleS,
    step: 1 / (OVERSAMPLING * spanS),
  })
  if (hz.length === 0) return neither('too-few-events')
  const { share } = lombScargle({ timesS: all.map((c) => c.atS), values: all.map((c) => c.rpm) }, hz)
  const best = share.reduce((high, s, i) => (s > share[high]! ? i : high), 0)
  const sine = fitSine(all, hz[best]!)
  const colour = colourOf(byCylinder, sine, hz[best]! * cycleS)
  if (chanceOf({ share: share[best]!, colour, cycles }) > FALSE_ALARM) return neither('not-visible')
  const amplitudeU = sine.residualSd * Math.sqrt((2 * colour) / cycles)
  const flattening = sinc(Math.PI * hz[best]! * cycleS)
  const frequencyU = (Math.sqrt((6 * colour) / cycles) * sine.residualSd) / (Math.PI * spanS * sine.amplitude)
  return {
    swing: measured((2 * sine.amplitude) / flattening, (2 * amplitudeU) / flattening, 'rpm'),
    // The grid itself leaves an even spread of half a step.
    period: measured(
      1 / hz[best]!,
      Math.hypot(frequencyU, 1 / (OVERSAMPLING * spanS * Math.sqrt(12))) / hz[best]! ** 2,
      's',
    ),
  }
}

const neither = (why: 'too-few-events' | 'not-visible'): Swing => ({
  swing: absent(why),
  period: absent(why),
})

const sinc = (x: number): number => (x === 0 ? 1 : Math.sin(x) / x)

const frequencies = ({ from, to, step }: { from: number; to: number; step: number }): number[] =>
  Array.from({ length: Math.max(0, Math.floor((to - from) / step) + 1) }, (_, i) => from + i * step)

interface Sine {
  amplitude: number
  residualSd: number
  at: (t: number) => number
}

/** Least-squares sine of a known frequency about the mean. */
function fitSine(series: readonly CycleSpeed[], hz: number): Sine {
  const middle = mean(series.map((c) => c.rpm))!
  let cc = 0,
    ss = 0,
    cs = 0,
    yc = 0,
    ys = 0
  for (const { atS, rpm } of series) {
    const c = Math.cos(2 * Math.PI * hz * atS)
    const s = Math.sin(2 * Math.PI * hz * atS)
    cc += c * c
    ss += s * s
    cs += c * s
    yc += (rpm - middle) * c
    ys += (rpm - middle) * s
  }
  const det = cc * ss - cs * cs
  const a = (yc * ss - ys * cs) / det
  const b = (ys * cc - yc * cs) / det
  const at = (t: number): number =>
    middle + a * Math.cos(2 * Math.PI * hz * t) + b * Math.sin(2 * Math.PI * hz * t)
  const squares = series.reduce((total, { atS, rpm }) => total + (rpm - at(atS)) ** 2, 0)
  return { amplitude: Math.hypot(a, b), residualSd: Math.sqrt(squares / Math.max(1, series.length - 3)), at }
}

/**
 * Power of what the sine leaves at its frequency, against white noise of the same variance: first-order noise. At least
 * 1: a guessed lack of noise at high frequencies must not make a peak there stand out.
 */
function colourOf(byCylinder: readonly (readonly CycleSpeed[])[], sine: Sine, turnsShare: number): number {
  const r =
    median(
      byCylinder.flatMap((series) => lagOneAutocorrelation(series.map((c) => c.rpm - sine.at(c.atS))) ?? []),
    ) ?? 0
  // Few cycles make a correlation look smaller than it is.
  const length = Math.max(...byCylinder.map((series) => series.length))
  const kept = Math.min(0.95, Math.max(0, r + (1 + 3 * r) / length))
  return Math.max(1, (1 - kept ** 2) / (1 - 2 * kept * Math.cos(2 * Math.PI * turnsShare) + kept ** 2))
}

/** Chance of a share this high somewhere among the frequencies, for m cycles of noise of the given colour. */
function chanceOf({ share, colour, cycles }: { share: number; colour: number; cycles: number }): number {
  const left = cycles - 3
  const ratio = share / (1 - share) / colour
  const single = (1 + ratio) ** (-left / 2)
  return 1 - (1 - single) ** (cycles / 2)
}
