import { limit, type Limits } from '../limits/limits.ts'
import type { FigureName } from '../metrics/figures.ts'
import { FIGURE_UNITS } from '../metrics/figures.ts'
import { hodgesLehmannShift } from '../maths/hodges-lehmann.ts'
import type { Says } from '../test-log/findings.ts'
import type { Measured, Interval } from '../units/measured.ts'
import { absent } from '../units/measured.ts'
import type { ConditionChange } from './compare-conditions.ts'
import { acrossRecorders } from './recorder-part.ts'
import {
  MIN_EVENTS,
  oddKind,
  valuesOf,
  wentTowardsOrder,
  type ChangeLimits,
  type StageCylinder,
} from './repair-change.ts'
import { isJudged, ORDER } from './kinds/index.ts'
import type { RepairVerdict, VerdictName } from './verdict-names.ts'

/** Figures whose shift from before to after is shown. */
const SHIFT_FIGURES = ['lateRisePct', 'burnMs', 'firingKv', 'midKv'] as const satisfies readonly FigureName[]

/** Either a shift with its interval, or why there is none. */
type Shift = { ok: true; interval: Interval } | { ok: false; why: (Measured<'1'> & { ok: false })['why'] }

export interface CylinderRepair {
  cylinder: number
  before: VerdictName
  after: VerdictName
  verdict: RepairVerdict
  shifts: Readonly<Record<string, Shift>>
}

export interface RepairCheck {
  verdict: RepairVerdict
  /** What else changed between the stages, and so limits what may be said. */
  conditions: readonly Says[]
  /** What that forbids, the most of them: any comparison, one of voltages, or nothing. */
  forbids: ConditionChange['forbids']
  /** False where the conditions before and after are too different to compare. */
  comparable: boolean
  cylinders: readonly CylinderRepair[]
}

/** Figures in kV, which another pickup or sample rate changes by itself. */
const VOLTAGE_FIGURES: readonly FigureName[] = ['firingKv', 'midKv']

/**
 * Before against after, cylinder by cylinder, from captures alone; the technician's word never confirms a repair.
 * The shift is Hodges and Lehmann's with Moses' interval. Its confidence is raised by Bonferroni's rule so that the
 * whole table holds at 95 %; what two recorders do to a figure is added. Whether a fault is gone is asked of the faulty
 * cylinders alone, which are a family of their own. A cylinder counts as changed only when the figure its verdict rests on changed beyond chance.
 *
 * @source Hollander & Wolfe 1999, section 4.2 and 4.3 (references by key `hollander-wolfe`)
 */
export function checkRepair(
  stages: { before: ReadonlyMap<number, StageCylinder>; after: ReadonlyMap<number, StageCylinder> },
  changes: readonly ConditionChange[],
  limits: Limits,
): RepairCheck {
  const { before, after } = stages
  const conditions = changes.map((c) => c.says)
  const forbids = (['all', 'voltage'] as const).find((f) => changes.some((c) => c.forbids === f)) ?? 'none'
  if (forbids === 'all') {
    return { verdict: 'not checked', conditions, forbids, comparable: false, cylinders: [] }
  }
  const twoRecorders = forbids === 'voltage'
  const left = new Set<string>(twoRecorders ? VOLTAGE_FIGURES : [])
  const both = [...before.keys()].filter((c) => after.has(c)).sort((a, b) => a - b)
  const confidence = 1 - 0.05 / Math.max(1, both.length)
  const odd = both.filter((c) => oddKind(before.get(c)!.verdict) !== undefined)
  const ofOdd = 1 - 0.05 / Math.max(1, odd.length)
  const how = { confidence, ofOdd, left, twoRecorders, leastShiftPct: limit(limits, 'repairLeastShiftPct') }
  const cylinders = both.map((cylinder) =>
    compare(cylinder, before.get(cylinder)!, after.get(cylinder)!, how),
  )
  const verdict = overall(cylinders)
  return { verdict, conditions, forbids, comparable: true, cylinders }
}

/** `left`: figures that may not be compared, since the conditions changed. */
interface How extends ChangeLimits {
  left: ReadonlySet<string>
  /** Confidence of one test whether a fault is gone, so that all of them hold at 95 %. */
  ofOdd: number
}

function compare(cylinder: number, before: StageCylinder, after: StageCylinder, how: How): CylinderRepair {
  const shifts = Object.fromEntries(
    SHIFT_FIGURES.map((name) => [
      name,
      how.left.has(name) ? absent('not-applicable') : shiftOf(name, { before, after }, how),
    ]),
  )
  return {
    cylinder,
    before: before.verdict,
    after: after.verdict,
    verdict: cylinderVerdict(before, after, how),
    shifts,
  }
}

function shiftOf(
  name: FigureName,
  { before, after }: Readonly<Record<'before' | 'after', StageCylinder>>,
  { confidence, twoRecorders }: How,
): Shift {
  // Tops known from below only are no sample of the firing voltages: the highest are missing.
  for (const { figures } of [before, after]) {
    const figure = figures?.[name]
    if (figure && !figure.ok && figure.atLeast !== undefined) return absent(figure.why)
  }
  if (VOLTAGE_FIGURES.includes(name) && [before, after].some(({ kvKnown }) => kvKnown === false))
    return absent('ratio-unknown')
  const [x, y] = [before, after].map(({ events }) =>
    valuesOf(events, ({ figures }) => (figures[name].ok ? figures[name].value : undefined)),
  )
  if (x!.length < MIN_EVENTS || y!.length < MIN_EVENTS) return absent('too-few-events')
  const { shift, low, high } = hodgesLehmannShift(x!, y!, confidence)
  const interval = { value: shift, low, high, unit: FIGURE_UNITS[name] }
  return {
    ok: true,
    interval: twoRecorders ? acrossRecorders(interval, name, { before, after, confidence }) : interval,
  }
}

/**
 * Better or worse only in what was, or is, out of order. Where the spark was missing or its circuit bad before, the
 * mixture shows only afterwards: a fault found there then is no worsening.
 */
function cylinderVerdict(before: StageCylinder, after: StageCylinder, limits: How): RepairVerdict {
  if (!isJudged(before.verdict) || !isJudged(after.verdict)) return 'not checked'
  const was = oddKind(before.verdict)
  const is = oddKind(after.verdict)
  const shownOnlyNow = is === 'mixture' && was !== undefined && was !== 'mixture'
  if (is && !shownOnlyNow && wentTowardsOrder(is, before, after, limits) < 0) return 'worse'
  if (!was || wentTowardsOrder(was, before, after, { ...limits, confidence: limits.ofOdd }) <= 0)
    return 'no change'
  return ORDER[after.verdict] === 'in order' ? 'repair confirmed' : 'improved, not in order'
}

/** The engine's verdict: worse outweighs all; confirmed only when every cylinder that was odd is confirmed. */
function overall(cylinders: readonly CylinderRepair[]): RepairVerdict {
  const seen = new Set(cylinders.map((c) => c.verdict))
  const odd = cylinders.filter((c) => oddKind(c.before) !== undefined)
  if (cylinders.length === 0 || (seen.size === 1 && seen.has('not checked'))) return 'not checked'
  if (seen.has('worse')) return 'worse'
  if (odd.length > 0 && odd.every((c) => c.verdict === 'repair confirmed')) return 'repair confirmed'
  if (odd.some((c) => c.verdict === 'not checked')) return 'not checked'
  if (seen.has('repair confirmed') || seen.has('improved, not in order')) return 'improved, not in order'
  return 'no change'
}
