import type { RepairConclusion } from '../../conclusion/conclusion.ts'
import type { Job } from '../../job/schema.ts'
import { loadCauses } from '../../limits/load-causes.ts'
import type { Limits } from '../../limits/limits.ts'
import type { SpeedMeasures } from '../../metrics/figures.ts'
import type { TestFinding } from '../../test-log/findings.ts'
import { absent } from '../../units/measured.ts'
import { causesInForce, type CausesInForce } from '../../verdicts/causes/override.ts'
import type { CapturePicture } from '../../verdicts/causes/from-captures.ts'
import { weighCauses, type WeighedCauses } from '../../verdicts/causes/weigh-causes.ts'
import { standFor, type JudgedCylinder } from '../../verdicts/judge-engine.ts'
import type { MeasuredCapture } from './measure-captures.ts'

/**
 * The shipped table of causes with a shop's own entries: those handed in for this call, else those it keeps in templates/.
 *
 * @throws ZodError or RangeError naming what is wrong with them
 */
export function causesFor(handedIn: unknown): CausesInForce {
  const { shipped, overrides } = loadCauses()
  return causesInForce({ shipped, overrides: handedIn ?? overrides })
}

interface Weighing {
  captures: readonly MeasuredCapture[]
  judged: readonly JudgedCylinder[]
  tests: readonly TestFinding[]
  /** The repair as judged from everything recorded after it. */
  repair: Pick<RepairConclusion, 'verdict' | 'restsOn'>
  /** Whether something the work did not touch was found before it and not read again. */
  leftUnread: boolean
  /** Whether captures after the work show every cylinder in order already. */
  levelAfter: boolean
  /** Whether anything read after the work is out of order. */
  openAfter: boolean
  /** Whether all that was looked at is in order, and nothing was done. */
  nothingWrong: boolean
}

/** Weighs the causes from captures, log and what followed the repair. */
export function weigh(
  job: Job,
  it: Weighing,
  { limits, table }: { limits: Limits; table: CausesInForce },
): WeighedCauses {
  const { captures, judged, tests, repair } = it
  return weighCauses(
    {
      engine: {
        ignition: job.engine.ignition,
        cylinders: Array.from({ length: job.engine.cylinders }, (_, i) => i + 1),
        banks: job.engine.banks,
      },
      captures: pictureOf(captures, judged, 'before'),
      after: pictureOf(captures, judged, 'after'),
      tests,
      repair: {
        verdict: repair.verdict,
        restsOn: repair.restsOn,
        levelAfter: it.levelAfter,
        leftUnread: it.leftUnread,
        openAfter: it.openAfter,
        nothingWrong: it.nothingWrong,
      },
    },
    table,
    limits,
  )
}

/** The captures of one state: what stands for each cylinder, and the idle's swing. */
function pictureOf(
  captures: readonly MeasuredCapture[],
  judged: readonly JudgedCylinder[],
  stage: 'before' | 'after',
): CapturePicture {
  const entries = new Map(captures.map((c) => [c.entry.file, c.entry]))
  const cylinders = [...standFor(judged, stage, (file) => entries.get(file)!).values()].map(
    ({ measures, judgement, apart }) => ({
      cylinder: measures.cylinder,
      // level lines of a cold engine say nothing of the warm one
      verdict:
        judgement.verdict === 'level' && entries.get(measures.capture)!.engine === 'cold'
          ? ('not judged' as const)
          : judgement.verdict,
      apart,
    }),
  )
  return {
    cylinders: cylinders.sort((a, b) => a.cylinder - b.cylinder),
    swing: idleSwing(
      captures.filter((c) => c.entry.stage === stage && c.entry.condition === 'idle').map((c) => c.speed),
    ),
  }
}

/** Swing of the idle capture with the most cycles. */
function idleSwing(speeds: readonly SpeedMeasures[]): CapturePicture['swing'] {
  const cycles = (s: SpeedMeasures) => (s.mean.ok ? s.mean.n : -1)
  return [...speeds].sort((a, b) => cycles(b) - cycles(a))[0]?.swing ?? absent('not-recorded')
}
