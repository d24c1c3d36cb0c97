import type { Capture } from '../../src/capture/capture.ts'
import { judgeCapture } from '../../src/chain/judge-capture.ts'
import { judge } from '../../src/chain/phases/judge.ts'
import type { QualityRemark } from '../../src/ignition/event.ts'
import type { Engine } from '../../src/job/schema.ts'
import { loadLimits } from '../../src/limits/limits.ts'
import { median } from '../../src/maths/median.ts'
import type { CaptureParameters } from '../../src/model/capture-parameters.ts'
import { simulateCapture } from '../../src/model/simulate-capture.ts'
import { loadTexts } from '../../src/texts/load-texts.ts'
import { JobError } from '../../src/problems/problem.ts'
import type { JudgedCylinder } from '../../src/verdicts/judge-engine.ts'
import type { VerdictName } from '../../src/verdicts/verdict-names.ts'
import { asCapture } from '../synthetic/as-capture.ts'

const LIMITS = loadLimits()
const TEXTS = loadTexts('en')
const INSTRUMENT = { voltageUncertaintyPercent: 5, timeUncertaintyPpm: 100 }

/** The engine of simulated parameters as job.yaml would describe it. */
export function engineOf({ engine, ignition }: CaptureParameters): Engine {
  const kind =
    ignition.kind === 'wasted-spark'
      ? 'wasted-spark'
      : ignition.kind === 'distributor'
        ? 'distributor'
        : 'coil-per-cylinder'
  return {
    cylinders: engine.firingOrder.length,
    strokes: engine.strokes,
    firing_order: [...engine.firingOrder],
    ignition: kind,
    fuel: 'E0',
  }
}

/** What came out of a simulated capture: verdicts, or the codes it was refused with. */
export type Outcome = { refused: readonly string[] } | Judged

/** Verdicts, all remarks on the capture, and the true median late rise of each cylinder, %. */
export interface Judged {
  refused?: undefined
  judged: readonly JudgedCylinder[]
  remarks: readonly QualityRemark[]
  /** Verdicts had no remark withheld one. */
  ungated: () => ReadonlyMap<number, VerdictName>
  trueLateRisePct: ReadonlyMap<number, number>
  /** True number of each cylinder's firing events in which nothing burns. */
  trueNoLines: ReadonlyMap<number, number>
  /** True number of each cylinder's turns in which the driver makes no spark at all: fewer firings than the other cylinders have. */
  trueLostSparks: ReadonlyMap<number, number>
}

/**
 * The measuring and judging chain on a simulated capture.
 * @param change  what happens to the capture between recorder and reader
 */
export function judgeSimulated(
  parameters: CaptureParameters,
  change: (capture: Capture) => Capture = (c) => c,
): Outcome {
  const simulated = simulateCapture(parameters)
  const capture = change(asCapture(simulated))
  const engine = engineOf(parameters)
  try {
    const { measured, judged } = judgeCapture(capture, {
      engine,
      instrument: INSTRUMENT,
      limits: LIMITS,
      texts: TEXTS,
    })
    const { remarks } = measured
    return {
      judged,
      remarks,
      ungated: () => {
        // No rule is asked of a starter alone: let through, it would be judged as an idle.
        const open = {
          ...measured,
          entry: { ...measured.entry, condition: 'idle' as const },
          remarks: remarks.map((r) => ({ ...r, forbids: [] })),
        }
        const about = { compression: new Map(), ignition: engine.ignition, limits: LIMITS }
        return new Map(
          judge([open], about).judged.map((j) => [j.measures.cylinder, j.judgement.verdict] as const),
        )
      },
      trueLateRisePct: trueRises(simulated.truth.events),
      trueNoLines: trueNoLines(simulated.truth.events),
      trueLostSparks: trueLostSparks(simulated.truth.events),
    }
  } catch (cause) {
    if (!(cause instanceof JobError)) throw cause
    return { refused: cause.problems.map((p) => p.code) }
  }
}

function trueRises(events: ReturnType<typeof simulateCapture>['truth']['events']): Map<number, number> {
  const byCylinder = new Map<number, number[]>()
  for (const e of events)
    if (e.levels && e.kind === 'firing' && e.complete)
      byCylinder.set(e.cylinder, [...(byCylinder.get(e.cylinder) ?? []), e.levels.lateRisePct])
  return new Map([...byCylinder].map(([c, v]) => [c, v.sort((a, b) => a - b)[Math.floor(v.length / 2)]!]))
}

function trueNoLines(events: ReturnType<typeof simulateCapture>['truth']['events']): Map<number, number> {
  const counts = new Map<number, number>()
  for (const e of events)
    if (!e.levels && e.kind === 'firing' && e.complete)
      counts.set(e.cylinder, (counts.get(e.cylinder) ?? 0) + 1)
  return counts
}

function trueLostSparks(events: ReturnType<typeof simulateCapture>['truth']['events']): Map<number, number> {
  const counts = new Map<number, number>()
  for (const e of events) if (e.kind === 'firing') counts.set(e.cylinder, (counts.get(e.cylinder) ?? 0) + 1)
  return new Map(
    [...counts].map(([cylinder, own]) => {
      const others = [...counts].flatMap(([c, count]) => (c === cylinder ? [] : count))
      return [cylinder, Math.max(0, (median(others) ?? own) - own)]
    }),
  )
}
