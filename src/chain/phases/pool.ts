import type { Engine } from '../../job/schema.ts'
import type { QualityRemark } from '../../ignition/event.ts'
import { limit, type Limits } from '../../limits/limits.ts'
import type { SpeedMeasures } from '../../metrics/figures.ts'
import type { Instrument } from '../../metrics/instrument.ts'
import { poolCylinder } from '../../metrics/pool-cylinder.ts'
import { fewEvents } from '../../verdicts/gates/few-events.ts'
import type { MeasuredCapture } from './measure-captures.ts'

/** Several captures taken together, in the shape of one; `entry.file` is their files joined by `+`. */
export interface MeasuredPool extends MeasuredCapture {
  files: readonly string[]
}

/** The remark of a capture with too few events: the reason for a pool, and what it may remedy. */
const FEW = fewEvents.id

/**
 * Captures of one cylinder, stage, condition and engine temperature by the same kind of pickup are taken together where
 * one of them by itself holds too few turns of it for a verdict. A capture unfit for another reason stays out.
 */
export function poolsOf(
  captures: readonly MeasuredCapture[],
  about: { engine: Engine; instrument: Instrument; limits: Limits },
): MeasuredPool[] {
  const least = limit(about.limits, 'minEvents')
  const byFiles = new Map<string, { members: MeasuredCapture[]; cylinders: number[] }>()
  for (const group of alike(captures)) {
    for (const cylinder of new Set(group.flatMap((c) => c.cylinders.map((m) => m.cylinder)))) {
      const members = group.filter((c) => isFit(c, cylinder))
      const turns = members.map((c) => turnsOf(c, cylinder))
      if (members.length < 2 || turns.every((n) => n >= least)) continue
      const key = members.map((c) => c.entry.file).join('+')
      const pool = byFiles.get(key) ?? { members, cylinders: [] }
      pool.cylinders.push(cylinder)
      byFiles.set(key, pool)
    }
  }
  return [...byFiles].map(([file, { members, cylinders }]) => poolOf(file, { members, cylinders }, about))
}

/** Captures of one setting that see their cylinders by the same kind of pickup. */
function alike(captures: readonly MeasuredCapture[]): MeasuredCapture[][] {
  const groups = new Map<string, MeasuredCapture[]>()
  for (const capture of captures) {
    const { stage, condition, engine } = capture.entry
    const key = [stage, condition, engine, ...new Set(capture.pickups.values())].join('|')
    groups.set(key, [...(groups.get(key) ?? []), capture])
  }
  return [...groups.values()]
}

const concerns = (remark: QualityRemark, cylinder: number): boolean =>
  !remark.cylinders || remark.cylinders.includes(cylinder)

function isFit({ cylinders, remarks }: MeasuredCapture, cylinder: number): boolean {
  const barred = remarks.some(
    (r) =>
      r.code !== FEW && concerns(r, cylinder) && (r.forbids.includes('all') || r.forbids.includes('mixture')),
  )
  return !barred && cylinders.some((m) => m.cylinder === cylinder && m.events > 0)
}

function turnsOf({ cylinders }: MeasuredCapture, cylinder: number): number {
  const own = cylinders.find((m) => m.cylinder === cylinder)!
  return own.events + (own.missing ?? 0)
}

function poolOf(
  file: string,
  { members, cylinders: numbers }: { members: readonly MeasuredCapture[]; cylinders: readonly number[] },
  { engine, instrument, limits }: { engine: Engine; instrument: Instrument; limits: Limits },
): MeasuredPool {
  const [first] = members as [MeasuredCapture]
  const entry = { ...first.entry, file }
  const cylinders = numbers
    .toSorted((a, b) => a - b)
    .map((cylinder) =>
      poolCylinder(
        members.map((c) => ({
          events: c.events,
          measures: c.cylinders.find((m) => m.cylinder === cylinder)!,
        })),
        { stage: entry.stage, capture: file, engine, instrument, cylinder },
      ),
    )
  const speed = members.reduce((best, { speed: s }) => (cyclesOf(s) > cyclesOf(best) ? s : best), first.speed)
  const durationS = members.reduce((sum, c) => sum + c.record.duration_s, 0)
  const facts = { durationS, sampleRateHz: first.record.sample_rate_hz, channels: [], ...NOTHING_LOST }
  return {
    entry,
    files: members.map((c) => c.entry.file),
    record: { ...first.record, file },
    remarks: [
      ...fewEvents.look({ entry, engine, facts, speed, cylinders }, limits),
      ...once(members.flatMap((c) => c.remarks.filter((r) => r.code !== FEW))),
    ],
    events: members.flatMap((c) => c.events),
    cylinders,
    speed,
    drawn: members.reduce((most, c) => (c.events.length > most.events.length ? c : most)).drawn,
    pickups: first.pickups,
  }
}

/** What a capture lost is remarked on beside that capture. */
const NOTHING_LOST = {
  jumps: { gaps: 0, missingS: 0, repeats: 0, events: 0 },
  leftOut: { starting: 0, offSpeed: 0, of: 0 },
}
const cyclesOf = ({ mean }: SpeedMeasures): number => (mean.ok ? mean.n : -1)

/** Remarks of several captures, of each kind the first for the cylinders it concerns. */
function once(remarks: readonly QualityRemark[]): QualityRemark[] {
  const kinds = new Map(remarks.map((r) => [`${r.code} ${(r.cylinders ?? []).join(' ')}`, r]))
  return [...kinds.values()]
}
