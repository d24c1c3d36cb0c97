import { K95 } from '../maths/normal.ts'
import { lagOneAutocorrelation } from '../maths/autocorrelation.ts'
import { mad } from '../maths/mad.ts'
import { standardDeviation } from '../maths/mean-sd.ts'
import { median } from '../maths/median.ts'
import { coverageFactor } from '../maths/student-t.ts'
import { absent, measured, type Measured } from '../units/measured.ts'
import { cycleSpeeds, type CycleSpeed, type SpeedEngine } from './cycle-speeds.ts'
import type { MeasuredEvent, SpeedMeasures, Summary } from './figures.ts'
import { inFrames } from './frames.ts'
import { instrumentU, type Instrument } from './instrument.ts'
import { turnsPerCycle } from './speed.ts'
import { findSwing } from './swing.ts'
import { LEAST_FREEDOM, swingingMean, type SpeedMean } from './swinging-mean.ts'

/** What the speed of a capture needs to know beside its events. */
export interface SpeedAbout {
  stage: 'before' | 'after'
  capture: string
  engine: SpeedEngine
  instrument: Instrument
}

/** Fewest working cycles for a mean with an interval. */
const LEAST_CYCLES = 3

/**
 * Engine speed of a capture from the intervals of same-cylinder events of its condition: mean with its 95 % interval,
 * spread, and swing and period where one stands out (see `findSwing`).
 *
 * The mean is turns over time; where a swing stands out, with the swing told apart (see `swingingMean`), since a capture
 * rarely holds whole periods of it. It stands for the running condition, of which the capture shows only some cycles: its
 * interval holds the scatter from cycle to cycle, widened where successive cycles are alike (a drifting idle is known
 * less well than its many cycles suggest), with Student's t, beside the clock of the recorder. In frames a frame stands
 * for a cycle, and no swing is told.
 */
export function measureSpeed(events: readonly MeasuredEvent[], about: SpeedAbout): SpeedMeasures {
  const framed = inFrames(events)
  const byCylinder = cycleSpeeds(events, about.engine).map((series) => series.filter((c) => !c.leftOut))
  const all = byCylinder.flat().toSorted((a, b) => a.atS - b.atS)
  const cycles = Math.max(0, ...byCylinder.map((series) => series.length))
  const { swing, period } = findSwing(framed ? [] : byCylinder)
  return {
    capture: about.capture,
    stage: about.stage,
    mean: meanSpeed(byCylinder, {
      turns: turnsPerCycle(about.engine.strokes),
      instrument: about.instrument,
      period,
    }),
    spread:
      cycles < LEAST_CYCLES
        ? absent('too-few-events')
        : spreadOf(
            all.map((c) => c.rpm),
            cycles,
          ),
    swing,
    swingPeriod: period,
  }
}

function meanSpeed(
  byCylinder: readonly CycleSpeed[][],
  { turns, instrument, period }: { turns: number; instrument: Instrument; period: Measured<'s'> },
): Summary<'rpm'> {
  const all = byCylinder.flat()
  const cycles = Math.max(0, ...byCylinder.map((series) => series.length))
  if (cycles < LEAST_CYCLES) return absent('too-few-events')
  const speeds = all.map((c) => c.rpm)
  const mean = (period.ok && swingingMean(byCylinder, 1 / period.value)) || plainMean(byCylinder, turns)
  const clock = instrumentU(mean.rpm, 'rpm', instrument)
  const half = Math.hypot(coverageFactor(0.95, mean.freedom) * mean.scatterU, K95 * clock)
  return {
    ok: true,
    unit: 'rpm',
    n: cycles,
    mad: mad(speeds)!,
    value: mean.rpm,
    low: mean.rpm - half,
    high: mean.rpm + half,
    budget: [
      { source: 'scatter', u: mean.scatterU },
      { source: 'instrument', u: clock },
    ],
  }
}

/** Turns over time, with the scatter from cycle to cycle. */
function plainMean(byCylinder: readonly CycleSpeed[][], turns: number): SpeedMean {
  const all = byCylinder.flat()
  const independent = independentCycles(byCylinder, Math.max(...byCylinder.map((series) => series.length)))
  return {
    rpm: (60 * turns * all.length) / all.reduce((total, c) => total + c.intervalS, 0),
    scatterU: standardDeviation(all.map((c) => c.rpm))! / Math.sqrt(independent),
    freedom: Math.max(LEAST_FREEDOM, independent - 1),
  }
}

/**
 * How many independent cycles as many cycles are worth: n (1 - r) / (1 + r) for the lag-1 correlation r of cycle
 * speeds, at least 2. Cylinders see the same turns of the crankshaft, so only one cylinder's cycles count.
 */
function independentCycles(byCylinder: readonly CycleSpeed[][], cycles: number): number {
  const r = median(byCylinder.flatMap((series) => lagOneAutocorrelation(series.map((c) => c.rpm)) ?? [])) ?? 0
  // An estimate from n values leans towards -1/n, and strays by 1/sqrt(n) where nothing is correlated.
  const kept = Math.min(0.95, shrunk(r + 1 / cycles, 1 / Math.sqrt(cycles)))
  return Math.max(2, (cycles * (1 - kept)) / (1 + kept))
}

/**
 * An estimate drawn towards nothing by as much as chance alone would make it, so that a steady idle is not taken for a
 * drifting one and a drifting one still shows; never below zero, which is not relied on.
 * @source positive-part estimator of James and Stein 1961, Proceedings of the Fourth Berkeley Symposium 1, 361-379
 */
const shrunk = (estimate: number, chance: number): number =>
  estimate <= chance ? 0 : estimate * (1 - (chance / estimate) ** 2)

/** Standard deviation of cycle speeds; u as that of a standard deviation from n cycles. @source JCGM 100:2008, E.4.3 */
function spreadOf(speeds: readonly number[], cycles: number): Measured<'rpm'> {
  const sd = standardDeviation(speeds)!
  return measured(sd, sd / Math.sqrt(2 * (cycles - 1)), 'rpm')
}
