import type { Limits } from '../limits/limits.ts'
import type { CylinderSummaries } from '../metrics/figures.ts'
import type { WithSpeed } from '../metrics/with-speed.ts'
import type { Says, TestFinding } from '../test-log/findings.ts'
import type { Measured } from '../units/measured.ts'
import type { ApartFinding } from '../verdicts/apart/apart-finding.ts'
import type { Basis } from '../verdicts/define-rule.ts'
import type { Running } from '../verdicts/running.ts'
import type { VerdictName } from '../verdicts/verdict-names.ts'
import type { FindingState } from './words.ts'

/** The capture that stands for one cylinder in one state. */
export interface SeenCylinder {
  state: FindingState
  cylinder: number
  capture: string
  condition: string
  /** Level lines of a cold engine, which is fed rich on purpose, do not show it to be in order. */
  engine: 'warm' | 'cold'
  verdict: VerdictName
  /** Id of the rule that decided. */
  rule: string
  /** How the engine ran, and what the verdict rests on. */
  running: Running
  basis: Basis | undefined
  reason: Says
  figures: CylinderSummaries
  /** Late rise at both ends of the swing of the speed, where it depends on it. */
  riseWithSpeed: WithSpeed | undefined
  /** Misfiring turns of all turns, %; undefined where nothing was counted. */
  missesPct: number | undefined
  /** Figures beside the mixture that stand apart from the fellows or from what is usual. */
  apart: readonly ApartFinding[]
}

/** Everything that was seen of a job, from captures and log, before anything is concluded of it. */
export interface Seen {
  cylinders: readonly number[]
  banks: Readonly<Record<string, readonly number[]>> | undefined
  judged: readonly SeenCylinder[]
  /** Regular swing of the idle by state, where an idle was captured. */
  swing: Readonly<Partial<Record<FindingState, { swing: Measured<'rpm'>; capture: string }>>>
  tests: readonly TestFinding[]
  /** Tests said to be of the state after the work whose own time puts them before it; they speak for no state. */
  tooEarly: ReadonlySet<number>
  limits: Limits
}

/** The state a stage of the job speaks for. */
export const STATE_OF = { before: 'as found', after: 'after' } as const satisfies Record<
  TestFinding['stage'],
  FindingState
>
