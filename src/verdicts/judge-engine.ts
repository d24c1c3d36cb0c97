import type { QualityRemark } from '../ignition/event.ts'
import type { CaptureEntry } from '../job/schema.ts'
import { limit, type Limits } from '../limits/limits.ts'
import type { CylinderMeasures, SpeedMeasures } from '../metrics/figures.ts'
import type { CompressionRead } from '../test-log/facts.ts'
import { absent } from '../units/measured.ts'
import type { ApartFinding } from './apart/apart-finding.ts'
import { standsApart } from './apart/index.ts'
import type { ReadCylinder } from './apart/reading.ts'
import type { Available, PickupKind } from './evidence.ts'
import { fellowsAmong, pickupOf } from './fellows/fellows-among.ts'
import { ownRise } from './fellows/own-rise.ts'
import { riseAgainstFellows, type AgainstFellows } from './fellows/rise-against-fellows.ts'
import { gatherEvidence } from './gather-evidence.ts'
import { judgeCylinder, type Judgement } from './judge-cylinder.ts'
import { ORDER } from './kinds/index.ts'
import { runningOf, type Running } from './running.ts'
import type { VerdictName } from './verdict-names.ts'

/** The remark of a pickup whose ratio is not known: its kV compare with nothing outside the capture. */
const RATIO_UNKNOWN = 'ratio-unknown'

/** A cylinder with no figure, or no fellow. */
const ALONE: AgainstFellows = { difference: absent('not-applicable'), fellowsLevel: false }

/** One cylinder of one capture, measured and judged. */
export interface JudgedCylinder {
  measures: CylinderMeasures
  judgement: Judgement
  condition: string
  running: Running
  /** False where a pickup of unknown ratio makes kV mean nothing by themselves. */
  kvKnown: boolean
  /** Late rise against the level ones among the other cylinders of the capture. */
  againstFellows: Available
  /** Firing voltage, burn time or oscillations apart from the fellows or from what is usual. */
  apart: readonly ApartFinding[]
}

/** What the judges know of a capture besides the figures. */
export interface CaptureSituation {
  capture: string
  entry: Pick<CaptureEntry, 'condition' | 'engine'>
  speed: Pick<SpeedMeasures, 'mean'>
  remarks: readonly QualityRemark[]
  /** A slow recorder loses whole events between its samples; undefined where that need not be feared. */
  sampleRateHz?: number
  /** Where each cylinder's pickup sits; a common lead where not stated. */
  pickups?: ReadonlyMap<number, PickupKind>
  /** Direction of each cylinder's firing line, where plugs fire either way (wasted spark, a pickup on each lead). */
  polarity?: ReadonlyMap<number, 'positive' | 'negative'>
}

/**
 * Judges every cylinder of every capture, each also against its fellows (see `fellowsAmong`).
 */
export function judgeEngine(
  measures: readonly CylinderMeasures[],
  about: { captures: readonly CaptureSituation[]; compression: CompressionRead; limits: Limits },
): JudgedCylinder[] {
  const situation = new Map(about.captures.map((c) => [c.capture, c]))
  const fellows = fellowsAmong(measures, situation)
  const { limits } = about
  const judged = measures.map((own): Judged => {
    const here = situation.get(own.capture)!
    const pickup = pickupOf(own, situation)
    const others = fellows(own)
    const rises = [own, ...others].flatMap(ownRise)
    const against = riseAgainstFellows(rises, limits).get(own.cylinder) ?? ALONE
    const remarks = here.remarks.filter((r) => !r.cylinders || r.cylinders.includes(own.cylinder))
    const kvKnown = !remarks.some((r) => r.code === RATIO_UNKNOWN)
    const running = runningOf(here.entry, here.speed, limit(limits, 'idleMostRpm'))
    const judgement = judgeCylinder(
      gatherEvidence(own, others, { pickup, kvKnown, sampleRateHz: here.sampleRateHz, limits, against }),
      {
        cylinder: own.cylinder,
        running,
        compression: about.compression.get(own.stage)?.get(own.cylinder),
        noLineTopsClipped: own.noLineTop?.clipped ?? false,
        remarks,
      },
      limits,
    )
    const { condition } = here.entry
    return { measures: own, judgement, condition, running, kvKnown, againstFellows: against.difference }
  })
  const verdictOf = new Map(judged.map((j) => [j.measures, j.judgement.verdict]))
  const read = (m: CylinderMeasures): ReadCylinder => ({
    cylinder: m.cylinder,
    capture: m.capture,
    verdict: verdictOf.get(m)!,
    figures: m.figures,
    polarity: situation.get(m.capture)!.polarity?.get(m.cylinder),
  })
  return judged.map((one) => {
    const { measures: own } = one
    const here = situation.get(own.capture)!
    const remarks = here.remarks.filter((r) => !r.cylinders || r.cylinders.includes(own.cylinder))
    const barred = remarks.filter((r) => r.forbids.includes('all'))
    const noFiring = remarks.filter((r) => r.forbids.includes('firing') && r.code !== RATIO_UNKNOWN)
    if (barred.length > 0 || own.events < limit(limits, 'minEvents')) return { ...one, apart: [] }
    const apart = standsApart({
      own: read(own),
      fellows: fellows(own).map(read),
      pickup: pickupOf(own, situation),
      running: one.running,
      kvKnown: one.kvKnown,
      firingKnown: noFiring.length === 0,
      limits,
    })
    return { ...one, apart }
  })
}

type Judged = Omit<JudgedCylinder, 'apart'>

/**
 * The capture that stands for each cylinder in a stage: a judged one before one not judged, a warm engine before a cold
 * one, idle before another condition (the limits are those of an idle). Of several alike the one that shows a fault,
 * which another does not undo (a coil that gives out hot), then the one with more events.
 */
export function standFor(
  judged: readonly JudgedCylinder[],
  stage: 'before' | 'after',
  entryOf: (capture: string) => { condition: string; engine: CaptureEntry['engine'] },
): Map<number, JudgedCylinder> {
  const rank = (one: JudgedCylinder) => {
    const { engine, condition } = entryOf(one.measures.capture)
    const [judged, ...alike] = weightOf(one)
    return [judged!, engine === 'warm' ? 1 : 0, condition === 'idle' ? 1 : 0, ...alike]
  }
  const best = new Map<number, JudgedCylinder>()
  for (const candidate of judged) {
    if (candidate.measures.stage !== stage) continue
    const standing = best.get(candidate.measures.cylinder)
    if (!standing || isHigher(rank(candidate), rank(standing)))
      best.set(candidate.measures.cylinder, candidate)
  }
  return best
}

/** What puts one of several captures taken alike first: that it was judged, that it shows a fault, its events. */
export const weightOf = ({ measures, judgement, apart }: JudgedCylinder): readonly number[] => [
  judgement.verdict === 'not judged' ? 0 : 1,
  ORDER[judgement.verdict] === 'out of order' ? 2 : apart.length > 0 ? 1 : 0,
  measures.events,
]

/** Whether a list of weights goes before another: by the first that differs. */
export function isHigher(a: readonly number[], b: readonly number[]): boolean {
  const at = a.findIndex((v, i) => v !== b[i])
  return at >= 0 && a[at]! > b[at]!
}

/** Verdict by cylinder. */
export const verdictsOf = (standing: ReadonlyMap<number, JudgedCylinder>): Map<number, VerdictName> =>
  new Map([...standing].map(([cylinder, j]) => [cylinder, j.judgement.verdict]))

/** Cylinders with anything apart beside their mixture. */
export const apartOf = (standing: ReadonlyMap<number, JudgedCylinder>): ReadonlySet<number> =>
  new Set([...standing].filter(([, j]) => j.apart.length > 0).map(([cylinder]) => cylinder))
