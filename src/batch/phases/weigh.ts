import type { Job } from '../../job/schema.ts'
import { loadCauses } from '../../limits/load-causes.ts'
import type { Limits } from '../../limits/limits.ts'
import type { SpeedMeasures } from '../../metrics/figures.ts'
import type { TestFinding } from '../../test-log/findings.ts'
import { absent } from '../../units/measured.ts'
import { firingExcessKv } from '../../verdicts/causes/firing-excess.ts'
import { causesInForce } from '../../verdicts/causes/override.ts'
import type { CapturePicture } from '../../verdicts/causes/from-captures.ts'
import { weighCauses, type WeighedCauses } from '../../verdicts/causes/weigh-causes.ts'
import { standFor, type JudgedCylinder } from '../../verdicts/judge-engine.ts'
import { FAMILY } from '../../verdicts/pattern.ts'
import type { RepairCheck } from '../../verdicts/repair.ts'
import type { VerdictName } from '../../verdicts/verdict-names.ts'
import type { MeasuredCapture } from './measure-captures.ts'

/** Weighs the causes from captures, log and repair check, with the shipped table and a shop's own entries. */
export function weigh(
  job: Job, it: { captures: readonly MeasuredCapture[]; judged: readonly JudgedCylinder[]; tests: readonly TestFinding[]; repair: RepairCheck }, limits: Limits,
): WeighedCauses {
  const { captures, judged, tests, repair } = it
  const picture = pictureOf(captures, judged)
  return weighCauses({
    engine: { cylinders: Array.from({ length: job.engine.cylinders }, (_, i) => i + 1), banks: job.engine.banks },
    captures: picture, tests,
    repair: { verdict: repair.verdict, wasOdd: picture.cylinders.some((c) => isOdd(c.verdict)) },
  }, causesInForce(loadCauses()), limits)
}

/** A pickup whose ratio is not known: its kV compare with no limit in kV. */
const RATIO_UNKNOWN = 'ratio-unknown'

const isOdd = (verdict: VerdictName): boolean => FAMILY[verdict] !== undefined

/** The captures before the repair: each cylinder's standing verdict, its firing voltage against its fellows', the idle's swing. */
function pictureOf(captures: readonly MeasuredCapture[], judged: readonly JudgedCylinder[]): CapturePicture {
  const conditions = new Map(captures.map((c) => [c.entry.file, c.entry.condition]))
  const scaled = new Set(captures.filter((c) => !c.remarks.some((r) => r.code === RATIO_UNKNOWN)).map((c) => c.entry.file))
  const standing = [...standFor(judged, 'before', (file) => conditions.get(file)!).values()]
  const cylinders = standing.map(({ measures, judgement }) => {
    const others = standing.filter((o) => o.measures !== measures && conditions.get(o.measures.capture) === conditions.get(measures.capture)).map((o) => o.measures)
    const excess = scaled.has(measures.capture) ? firingExcessKv(measures, others) : absent('not-applicable')
    return { cylinder: measures.cylinder, verdict: judgement.verdict, firingExcessKv: excess }
  })
  return { cylinders: cylinders.sort((a, b) => a.cylinder - b.cylinder), swing: idleSwing(captures.filter((c) => c.entry.stage === 'before' && c.entry.condition === 'idle').map((c) => c.speed)) }
}

/** Swing of the idle capture with the most cycles. */
function idleSwing(speeds: readonly SpeedMeasures[]): CapturePicture['swing'] {
  const cycles = (s: SpeedMeasures) => (s.mean.ok ? s.mean.n : -1)
  return [...speeds].sort((a, b) => cycles(b) - cycles(a))[0]?.swing ?? absent('not-recorded')
}
