import { limit, type Limits } from '../limits/limits.ts'
import type { FigureName, MeasuredEvent } from '../metrics/figures.ts'
import { FIGURE_UNITS } from '../metrics/figures.ts'
import { hodgesLehmannShift } from '../maths/hodges-lehmann.ts'
import type { Says } from '../test-log/findings.ts'
import type { Measured, Interval } from '../units/measured.ts'
import { absent } from '../units/measured.ts'
import type { ConditionChange } from './compare-conditions.ts'
import type { RepairVerdict, VerdictName } from './verdict-names.ts'

/** Figures whose shift from before to after is shown. */
export const SHIFT_FIGURES = ['lateRisePct', 'burnMs', 'firingKv', 'midKv'] as const satisfies readonly FigureName[]

/** Either a shift with its interval, or why there is none. */
export type Shift = { ok: true; interval: Interval } | { ok: false; why: (Measured<'1'> & { ok: false })['why'] }

export interface CylinderRepair {
  cylinder: number
  before: VerdictName
  after: VerdictName
  verdict: RepairVerdict
  shifts: Readonly<Record<string, Shift>>
}

export interface RepairCheck {
  verdict: RepairVerdict
  says: Says
  /** What else changed between the stages, and so limits what may be said. */
  conditions: readonly Says[]
  cylinders: readonly CylinderRepair[]
}

/** One cylinder in one stage: its verdict and the events it rests on. */
export interface StageCylinder { verdict: VerdictName; events: readonly MeasuredEvent[] }

/** Least number of events a side for a shift; fewer give no distribution-free interval worth printing. */
const MIN_EVENTS = 6
const MAX_EVENTS = 400

/** Figures in kV, which another pickup or sample rate changes by itself. */
const VOLTAGE_FIGURES: readonly FigureName[] = ['firingKv', 'midKv']

const ODD: ReadonlySet<VerdictName> = new Set(
  ['lean', 'falling', 'rich', 'low compression', 'external resistance', 'open secondary', 'misfiring'])

/**
 * Before against after, cylinder by cylinder, from captures alone; the technician's word never confirms a repair.
 * The shift is Hodges and Lehmann's with Moses' interval. Its confidence is raised by Bonferroni's rule so that the
 * whole table holds at 95 %: a cylinder counts as changed only when its interval leaves out zero.
 *
 * @source Hollander & Wolfe 1999, section 4.2 and 4.3 (references by key `hollander-wolfe`)
 */
export function checkRepair(
  stages: { before: ReadonlyMap<number, StageCylinder>; after: ReadonlyMap<number, StageCylinder> },
  changes: readonly ConditionChange[], limits: Limits,
): RepairCheck {
  const { before, after } = stages
  const conditions = changes.map((c) => c.says)
  if (changes.some((c) => c.forbids === 'all')) {
    return { verdict: 'not checked', says: { key: 'repair.not-comparable', args: {} }, conditions, cylinders: [] }
  }
  const left = new Set<string>(changes.some((c) => c.forbids === 'voltage') ? VOLTAGE_FIGURES : [])
  const both = [...before.keys()].filter((c) => after.has(c)).sort((a, b) => a - b)
  const confidence = 1 - 0.05 / Math.max(1, both.length)
  const cylinders = both.map((cylinder) => compare(cylinder, before.get(cylinder)!, after.get(cylinder)!, { confidence, left, leastShiftPct: limit(limits, 'repairLeastShiftPct') }))
  const verdict = overall(cylinders)
  const list = (v: RepairVerdict) => cylinders.filter((c) => c.verdict === v).map((c) => c.cylinder).join(', ')
  const says: Says = {
    key: `repair.${verdict.replaceAll(/[ ,]+/g, '-')}`,
    args: { confirmed: list('repair confirmed'), worse: list('worse'), improved: list('improved, not in order') },
  }
  return { verdict, says, conditions, cylinders }
}

/** `left`: figures that may not be compared, since the conditions changed. */
interface How { confidence: number; leastShiftPct: number; left: ReadonlySet<string> }

function compare(cylinder: number, before: StageCylinder, after: StageCylinder, how: How): CylinderRepair {
  const shifts = Object.fromEntries(SHIFT_FIGURES.map((name) =>
    [name, how.left.has(name) ? absent('not-applicable') : shiftOf(name, before.events, after.events, how.confidence)]))
  return { cylinder, before: before.verdict, after: after.verdict, verdict: cylinderVerdict(before, after, { shifts, leastShiftPct: how.leastShiftPct }), shifts }
}

function shiftOf(name: FigureName, before: readonly MeasuredEvent[], after: readonly MeasuredEvent[], confidence: number): Shift {
  const values = (events: readonly MeasuredEvent[]) => thinned(Float64Array.from(
    events.flatMap((e) => (e.kind === 'firing' && e.figures[name].ok ? [e.figures[name].value] : []))))
  const x = values(before)
  const y = values(after)
  if (x.length < MIN_EVENTS || y.length < MIN_EVENTS) return absent('too-few-events')
  const { shift, low, high } = hodgesLehmannShift(x, y, confidence)
  return { ok: true, interval: { value: shift, low, high, unit: FIGURE_UNITS[name] } }
}

/** Evenly chosen values, at most MAX_EVENTS: the shift looks at every pair of values, and long captures have thousands. */
function thinned(values: Float64Array): Float64Array {
  if (values.length <= MAX_EVENTS) return values
  return Float64Array.from({ length: MAX_EVENTS }, (_, i) => values[Math.floor((i * values.length) / MAX_EVENTS)]!)
}

/**
 * A change counts when its interval leaves out zero (it is no chance) and it is large enough to mean something:
 * two recordings of the same engine are never quite alike.
 */
function cylinderVerdict(
  before: StageCylinder, after: StageCylinder, { shifts, leastShiftPct }: { shifts: Readonly<Record<string, Shift>>; leastShiftPct: number },
): RepairVerdict {
  const wasOdd = ODD.has(before.verdict)
  const isOdd = ODD.has(after.verdict)
  if (before.verdict === 'not judged' || after.verdict === 'not judged') return 'not checked'
  if (!wasOdd) return isOdd ? 'worse' : 'no change'
  if (after.verdict === 'level') return 'repair confirmed'
  const rise = shifts.lateRisePct
  const towards = before.verdict === 'lean' ? -1 : 1
  if (!rise?.ok || (rise.interval.low <= 0 && rise.interval.high >= 0)) return 'no change'
  if (Math.abs(rise.interval.value) < leastShiftPct) return 'no change'
  return Math.sign(rise.interval.value) === towards ? 'improved, not in order' : 'worse'
}

/** The engine's verdict: worse outweighs all; confirmed only when every cylinder that was odd is confirmed. */
function overall(cylinders: readonly CylinderRepair[]): RepairVerdict {
  const seen = new Set(cylinders.map((c) => c.verdict))
  const odd = cylinders.filter((c) => ODD.has(c.before))
  if (cylinders.length === 0 || (seen.size === 1 && seen.has('not checked'))) return 'not checked'
  if (seen.has('worse')) return 'worse'
  if (odd.length > 0 && odd.every((c) => c.verdict === 'repair confirmed')) return 'repair confirmed'
  if (odd.some((c) => c.verdict === 'not checked')) return 'not checked'
  if (seen.has('repair confirmed') || seen.has('improved, not in order')) return 'improved, not in order'
  return 'no change'
}

