import type { Engine } from '../../job/schema.ts'
import type { Limits } from '../../limits/limits.ts'
import { isLeftOut } from '../../metrics/cycle-speeds.ts'
import type { SpeedMeasures } from '../../metrics/figures.ts'
import {
  compareConditions,
  type ConditionChange,
  type StageConditions,
} from '../../verdicts/compare-conditions.ts'
import { firingDirections } from '../../verdicts/firing-direction.ts'
import { judgeEngine, standFor, type JudgedCylinder } from '../../verdicts/judge-engine.ts'
import { checkRepair, type RepairCheck } from '../../verdicts/repair.ts'
import type { StageCylinder } from '../../verdicts/repair-change.ts'
import type { CompressionRead } from '../../test-log/facts.ts'
import type { MeasuredCapture } from './measure-captures.ts'

/** Judges every cylinder, then the repair. */
export function judge(
  captures: readonly MeasuredCapture[],
  it: {
    compression: CompressionRead
    ignition: Engine['ignition']
    limits: Limits
    /** Captures said to be of the state after the work that were taken before it: they are judged, and show no repair. */
    tooEarly?: ReadonlySet<string>
  },
): { judged: JudgedCylinder[]; repair: RepairCheck } {
  const { compression, ignition, limits, tooEarly } = it
  const judged = judgeEngine(
    captures.flatMap((c) => c.cylinders),
    {
      captures: captures.map((c) => ({
        capture: c.entry.file,
        entry: c.entry,
        speed: c.speed,
        remarks: c.remarks,
        pickups: c.pickups,
        polarity: firingDirections(c.record.channels, ignition),
        sampleRateHz: c.record.sample_rate_hz,
      })),
      compression,
      limits,
    },
  )
  const byFile = new Map(captures.map((c) => [c.entry.file, c]))
  const entryOf = (file: string) => byFile.get(file)!.entry
  const before = standFor(judged, 'before', entryOf)
  const after = standFor(
    judged.filter((j) => !tooEarly?.has(j.measures.capture)),
    'after',
    entryOf,
  )
  const changes = allChanges(before, after, { byFile, limits })
  return {
    judged,
    repair: checkRepair(
      { before: withEvents(before, byFile), after: withEvents(after, byFile) },
      changes,
      limits,
    ),
  }
}

/** Adds each cylinder's own events to its verdict. */
function withEvents(
  standing: ReadonlyMap<number, JudgedCylinder>,
  byFile: ReadonlyMap<string, MeasuredCapture>,
): Map<number, StageCylinder> {
  return new Map(
    [...standing].map(([cylinder, { measures, judgement, kvKnown }]) => [
      cylinder,
      {
        verdict: judgement.verdict,
        kvKnown,
        missedTurns: measures.missing ?? 0,
        figures: measures.figures,
        events: byFile
          .get(measures.capture)!
          .events.filter((e) => e.cylinder === cylinder && !e.flags.includes('partial') && !isLeftOut(e)),
      },
    ]),
  )
}

/** Changes between the captures that stand for any cylinder before and after, each said once. */
function allChanges(
  before: ReadonlyMap<number, JudgedCylinder>,
  after: ReadonlyMap<number, JudgedCylinder>,
  { byFile, limits }: { byFile: ReadonlyMap<string, MeasuredCapture>; limits: Limits },
): ConditionChange[] {
  const pairs = [...before].flatMap(([cylinder, { measures }]) => {
    const then = after.get(cylinder)
    return then ? [[byFile.get(measures.capture)!, byFile.get(then.measures.capture)!] as const] : []
  })
  const changes = pairs.flatMap(([first, second]) =>
    compareConditions(conditionsOf(first), conditionsOf(second), limits),
  )
  return [...new Map(changes.map((change) => [JSON.stringify(change.says), change])).values()]
}

function conditionsOf({ entry, record, speed }: MeasuredCapture): StageConditions {
  const secondaries = record.channels.filter((c) => c.carries === 'secondary')
  return {
    condition: entry.condition,
    engine: entry.engine,
    meanRpm: meanOf(speed),
    sampleRateHz: record.sample_rate_hz,
    pickup: entry.channels
      .filter((c) => c.carries === 'secondary')
      .map((c) => `${c.column} × ${c.scale} ${c.unit}`)
      .join('; '),
    quantumKv: Math.max(0, ...secondaries.map((c) => c.quantum)),
  }
}

const meanOf = ({ mean }: SpeedMeasures): number | undefined => (mean.ok ? mean.value : undefined)
