import { z } from 'zod'
import { FAMILY, ORDER } from '../verdicts/kinds/index.ts'
import {
  engineClasses,
  faultStatuses,
  standingWords,
  type EngineClass,
  type FaultStatus,
} from '../conclusion/words.ts'
import type { VerdictName } from '../verdicts/verdict-names.ts'

/** A verdict or a cause that a person overruled, in the words of the record. */
export interface Overruled {
  of: 'verdict' | 'cause'
  cylinder: number | null
  stage: 'before' | 'after' | null
  said: string | null
  instead: string
  by: string
}

/** What became of a job: reported, refused, or its output cannot be used (gone bad, or altered since). */
export type JobState = 'reported' | 'invalid' | 'skipped' | 'unreadable' | 'altered'

/** One job in a fleet: what its record says, in figures and words of the contract. Plain data, some 600 bytes. */
export interface FleetRow {
  state: JobState
  /** Why a job that is not `reported` is not: codes of problems. */
  reason: string
  /** Work order; of a job that has none on record, the name of its folder. */
  workOrder: string
  /** The job's last stated day, ISO 8601; empty where none is on record. */
  date: string
  vin: string
  unitNumber: string
  customer: string
  /** Year, make and model. */
  vehicleWords: string
  odometer: number | null
  odometerUnit: string
  /** First stage with captures: pattern, odd cylinders, kinds of fault, how many cylinders were judged, borderline or not judged. */
  pattern: string
  verdicts: readonly { cylinder: number; verdict: string }[]
  /** Kinds of fault, from the verdicts on cylinders. */
  families: readonly string[]
  judged: number
  borderline: number
  notJudged: number
  /** The cylinder whose late rise is farthest from level, before and after, %. */
  lateRisePct: number | null
  lateRiseCylinder: number | null
  lateRiseAfterPct: number | null
  highestFiringKv: number | null
  shortestBurnMs: number | null
  meanRpm: number | null
  swingRpm: number | null
  /** First cause, its share, and whether the evidence let it be called the cause. */
  cause: string
  causeShare: number | null
  causeSettled: boolean
  repair: string
  /** The engine as found and now, as the conclusion has them; empty in records before it. */
  engineAsFound: EngineClass | ''
  engineNow: EngineClass | ''
  /** Id of the next step; empty where nothing is left to do, and in records before the conclusion. */
  nextStep: string
  /** A weak identity: plates move between vehicles. */
  plate: string
  work: number
  tests: number
  warnings: readonly string[]
  remarks: readonly string[]
  vinCheck: string
  uncertaintyStated: boolean
  changedLimits: number
  signed: boolean
  version: string
  /** Figures that had changed against the vehicle's own earlier ones, where its report was made with a history. */
  changed: readonly { cylinder: number; figure: string; change: number }[]
  /** What persons overruled. */
  overruled: readonly Overruled[]
  /** Causes shown mended, and causes that were worked on without any change. */
  mended: readonly string[]
  refuted: readonly string[]
  /** Cylinders in order in the first stage, and those whose repair is shown to have held. */
  inOrder: readonly number[]
  mendedCylinders: readonly number[]
}

const figure = z.union([z.object({ value: z.number() }), z.object({ absent: z.string() })])
const stageRecord = z
  .object({
    pattern: z.string(),
    cylinders: z.array(z.number()),
    speed: z.object({ mean_rpm: figure, swing_rpm: figure }),
  })
  .nullable()

/** The part of result.json that a roll-up reads. Looser than the record's own schema, so that records of years ago still count. */
export const fleetResultSchema = z.object({
  format: z.literal(1),
  program: z.object({ name: z.literal('burnline'), version: z.string(), signing_key: z.string().optional() }),
  job: z.object({
    work_order: z.string(),
    opened: z.string(),
    closed: z.string().nullable(),
    customer: z.record(z.string(), z.string()).nullable(),
    vehicle: z.object({
      vin: z.string().nullable(),
      vin_check: z.string(),
      plate: z.string().nullish(),
      unit_number: z.string().nullable(),
      year: z.number().nullable(),
      make: z.string().nullable(),
      model: z.string().nullable(),
      odometer: z.object({ value: z.number(), unit: z.string() }).nullable(),
    }),
    instrument: z.object({ voltage_uncertainty_stated: z.boolean() }),
  }),
  captures: z.array(z.object({ remarks: z.array(z.object({ code: z.string() })) })),
  cylinders: z.array(
    z.object({
      stage: z.enum(['before', 'after']),
      cylinder: z.number(),
      verdict: z.string(),
      figures: z.record(z.string(), figure),
    }),
  ),
  engine: z.object({ before: stageRecord, after: stageRecord }),
  tests: z.array(z.unknown()),
  causes: z.array(z.object({ id: z.string(), probability: z.number() })),
  ledger: z.object({ kind: z.string() }).optional(),
  conclusion: z
    .object({
      as_found: z.object({ class: z.enum(engineClasses) }),
      now: z.object({ class: z.enum(engineClasses) }),
      next: z.object({ id: z.string().nullable() }).optional(),
      faults: z.array(
        z.object({
          cause: z.string(),
          standing: z.enum(standingWords),
          status: z.enum(faultStatuses).optional(),
        }),
      ),
    })
    .optional(),
  repair: z.object({
    verdict: z.string(),
    work: z.array(z.string()),
    cylinders: z.array(z.object({ cylinder: z.number(), verdict: z.string() })).optional(),
  }),
  history: z
    .object({
      changes: z.array(
        z.object({ cylinder: z.number(), figure: z.string(), change: z.number(), changed: z.boolean() }),
      ),
    })
    .optional(),
  review: z
    .array(
      z.object({
        by: z.string(),
        of: z.enum(['verdict', 'cause']),
        cylinder: z.number().nullable(),
        stage: z.enum(['before', 'after']).nullable(),
        said: z.string().nullable(),
        instead: z.string(),
        agrees: z.boolean(),
      }),
    )
    .optional(),
  limits: z.array(z.object({ changed: z.boolean() })),
  problems: z.array(z.object({ code: z.string(), severity: z.string() })),
})
export type FleetResult = z.infer<typeof fleetResultSchema>

/** Whether the evidence lets the first cause be called the cause: by the conclusion, in records before it by the ledger. */
function isSettled({ conclusion, ledger, causes }: FleetResult): boolean {
  if (conclusion) {
    const [first] = conclusion.faults
    return first !== undefined && (first.standing === 'clear' || first.standing === 'leading')
  }
  return causes.length > 0 && (ledger?.kind === 'clear' || (ledger?.kind.startsWith('leading') ?? false))
}

/** The row of a reported job. */
export function rowOfResult(result: FleetResult): FleetRow {
  const { job, repair } = result
  const { vehicle } = job
  const first = result.engine.before ? 'before' : 'after'
  const stage = result.engine[first]
  const of = (wanted: 'before' | 'after') => result.cylinders.filter((c) => c.stage === wanted)
  const worst = farthestRise(of(first))
  return {
    ...EMPTY_ROW,
    state: 'reported',
    workOrder: job.work_order,
    date: (job.closed ?? job.opened).slice(0, 10),
    vin: vehicle.vin ?? '',
    unitNumber: vehicle.unit_number ?? '',
    customer: job.customer?.name ?? '',
    vehicleWords: [vehicle.year, vehicle.make, vehicle.model]
      .filter((word) => word !== null && word !== '')
      .join(' '),
    odometer: vehicle.odometer?.value ?? null,
    odometerUnit: vehicle.odometer?.unit ?? '',
    pattern: stage?.pattern ?? 'none',
    ...standing(of(first), stage?.cylinders ?? []),
    lateRisePct: worst?.value ?? null,
    lateRiseCylinder: worst?.cylinder ?? null,
    lateRiseAfterPct: first === 'before' ? (farthestRise(of('after'))?.value ?? null) : null,
    highestFiringKv: extreme(of(first), 'firing_kv', Math.max),
    shortestBurnMs: extreme(of(first), 'burn_ms', Math.min),
    meanRpm: valueOf(stage?.speed.mean_rpm),
    swingRpm: valueOf(stage?.speed.swing_rpm),
    cause: result.causes[0]?.id ?? '',
    causeShare: result.causes[0]?.probability ?? null,
    causeSettled: isSettled(result),
    engineAsFound: result.conclusion?.as_found.class ?? '',
    engineNow: result.conclusion?.now.class ?? '',
    nextStep: result.conclusion?.next?.id ?? '',
    plate: vehicle.plate ?? '',
    repair: repair.verdict,
    work: repair.work.length,
    tests: result.tests.length,
    warnings: unique(result.problems.map((p) => p.code)),
    remarks: unique(result.captures.flatMap((c) => c.remarks.map((r) => r.code))),
    vinCheck: vehicle.vin_check,
    uncertaintyStated: job.instrument.voltage_uncertainty_stated,
    changedLimits: result.limits.filter((l) => l.changed).length,
    version: result.program.version,
    changed: (result.history?.changes ?? [])
      .filter((c) => c.changed)
      .map(({ cylinder, figure: name, change }) => ({ cylinder, figure: name, change })),
    overruled: (result.review ?? [])
      .filter(({ agrees }) => !agrees)
      .map(({ of, cylinder, stage: at, said, instead, by }) => ({
        of,
        cylinder,
        stage: at,
        said,
        instead,
        by,
      })),
    mended: causesWith(result, 'shown mended'),
    refuted: causesWith(result, 'contradicted'),
    inOrder: unique(of(first).map((c) => c.cylinder)).filter((n) =>
      of(first).every((c) => c.cylinder !== n || ORDER[c.verdict as VerdictName] === 'in order'),
    ),
    mendedCylinders: (repair.cylinders ?? [])
      .filter(({ verdict }) => verdict === 'repair confirmed')
      .map(({ cylinder }) => cylinder),
  }
}

const causesWith = ({ conclusion }: FleetResult, status: FaultStatus): string[] =>
  unique((conclusion?.faults ?? []).filter((f) => f.status === status).map(({ cause }) => cause))

/** A row of a job without a usable record. */
export const rowWithoutRecord = (
  workOrder: string,
  state: Exclude<JobState, 'reported'>,
  reasons: readonly string[],
): FleetRow => ({ ...EMPTY_ROW, state, workOrder, reason: unique(reasons).join(' ') })

const EMPTY_ROW: FleetRow = {
  state: 'invalid',
  reason: '',
  workOrder: '',
  date: '',
  vin: '',
  unitNumber: '',
  customer: '',
  vehicleWords: '',
  odometer: null,
  odometerUnit: '',
  pattern: '',
  verdicts: [],
  families: [],
  judged: 0,
  borderline: 0,
  notJudged: 0,
  lateRisePct: null,
  lateRiseCylinder: null,
  lateRiseAfterPct: null,
  highestFiringKv: null,
  shortestBurnMs: null,
  meanRpm: null,
  swingRpm: null,
  cause: '',
  causeShare: null,
  causeSettled: false,
  engineAsFound: '',
  engineNow: '',
  nextStep: '',
  plate: '',
  repair: '',
  work: 0,
  tests: 0,
  warnings: [],
  remarks: [],
  vinCheck: '',
  uncertaintyStated: false,
  changedLimits: 0,
  signed: false,
  version: '',
  changed: [],
  overruled: [],
  mended: [],
  refuted: [],
  inOrder: [],
  mendedCylinders: [],
}

type Cylinders = FleetResult['cylinders']

/** The verdict that stands for each odd cylinder, and how many are clear, unsure or unjudged. A cylinder seen in several captures counts by its judged ones. */
function standing(
  cylinders: Cylinders,
  odd: readonly number[],
): Pick<FleetRow, 'verdicts' | 'families' | 'judged' | 'borderline' | 'notJudged'> {
  const numbers = unique(cylinders.map((c) => c.cylinder)).sort((a, b) => a - b)
  const of = (n: number) => cylinders.filter((c) => c.cylinder === n).map((c) => c.verdict)
  const verdicts = numbers
    .filter((n) => odd.includes(n))
    .map((cylinder) => ({
      cylinder,
      verdict: of(cylinder).find((v) => FAMILY[v as VerdictName]) ?? of(cylinder)[0]!,
    }))
  const unjudged = numbers.filter((n) => of(n).every((v) => ORDER[v as VerdictName] === 'not known')).length
  return {
    verdicts,
    families: unique(verdicts.flatMap(({ verdict }) => FAMILY[verdict as VerdictName]?.name ?? [])).sort(),
    judged: numbers.length - unjudged,
    notJudged: unjudged,
    borderline: numbers.filter(
      (n) => of(n).some((v) => ORDER[v as VerdictName] === 'unsure') && !odd.includes(n),
    ).length,
  }
}

const unique = <T>(values: readonly T[]): T[] => [...new Set(values)]

const valueOf = (figureRead: z.infer<typeof figure> | undefined): number | null =>
  figureRead && 'value' in figureRead ? figureRead.value : null

function farthestRise(cylinders: Cylinders): { value: number; cylinder: number } | undefined {
  return cylinders
    .flatMap(({ cylinder, figures }) => {
      const value = valueOf(figures.late_rise_pct)
      return value === null ? [] : [{ value, cylinder }]
    })
    .sort((a, b) => Math.abs(b.value) - Math.abs(a.value) || a.cylinder - b.cylinder)[0]
}

function extreme(cylinders: Cylinders, name: string, pick: (...values: number[]) => number): number | null {
  const values = cylinders.flatMap(({ figures }) => valueOf(figures[name]) ?? [])
  return values.length === 0 ? null : pick(...values)
}
