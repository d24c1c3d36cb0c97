import { dice } from '../composed/dice.ts'
import { captureCsv, captureYaml, carYaml, SAMPLE_HZ } from '../composed/capture-file.ts'
import { allOf, type ComposedEngine } from '../composed/engines.ts'
import type { JobFiles } from '../composed/compose.ts'
import { logText } from '../../../src/job/edit-log.ts'
import type { LogRow } from '../composed/log-rows.ts'
import { drawWaves, HEALTHY, type CylinderWave } from '../composed/wave.ts'
import type { EngineClass, FaultStatus, RepairReason, StandingWord } from '../../../src/conclusion/words.ts'
import type { RepairVerdict, VerdictName } from '../../../src/verdicts/verdict-names.ts'

/** One capture of a job written by hand: what each cylinder does other than a healthy one. */
export interface WorkshopCapture {
  stage: 'before' | 'after'
  /** Hours and minutes. */
  at: string
  condition?: string
  engine?: 'warm' | 'cold'
  rpm?: number
  swingRpm?: number
  cycles?: number
  /** By cylinder; `all` for every one. */
  waves?: Readonly<Partial<Record<number | 'all', Partial<CylinderWave>>>>
}

/** What a master technician expects of the report, fixed before the report was made. Lists are alternatives. */
export interface Expected {
  found: readonly EngineClass[]
  now: readonly EngineClass[]
  /** Verdicts as found and after of cylinders that must have them; none other may be odd. */
  before?: Readonly<Record<number, readonly VerdictName[]>>
  after?: Readonly<Record<number, readonly VerdictName[]>>
  /** Faults that must stand, each cause among these, with a cylinder or words of its place. */
  faults?: readonly {
    cause: readonly string[]
    cylinders?: readonly number[]
    place?: RegExp
    status?: readonly FaultStatus[]
  }[]
  /** Standings the first fault may not have. */
  notStanding?: readonly StandingWord[]
  /** Causes that may not stand first. */
  notFirst?: readonly string[]
  repair: readonly RepairVerdict[]
  why?: readonly RepairReason[]
  left?: readonly number[]
  headline?: readonly RegExp[]
  headlineNot?: readonly RegExp[]
  page?: readonly RegExp[]
  pageNot?: readonly RegExp[]
  /** Ids of the next step; null where nothing is left. */
  next?: readonly (string | null)[]
  nextNot?: readonly (string | null)[]
  stated?: Readonly<Partial<Record<'cause' | 'correction', readonly string[]>>>
  notRuledOut?: readonly string[]
}

export interface WorkshopJob {
  name: string
  why: string
  engine: ComposedEngine
  complaint: string
  cause?: string
  correction?: string
  captures: readonly WorkshopCapture[]
  log: readonly LogRow[]
  expects: Expected
}

const moment = (at: string) => `2026-05-12T${at}:00+01:00`

/** Files of the job's folder; the same bytes each time. */
export function filesOf(job: WorkshopJob): JobFiles {
  const captures = job.captures.map((c, i) => ({ ...c, file: `captures/${c.stage}-${i + 1}.csv` }))
  const { engine } = job
  const yaml = [
    'format: 1',
    `work_order: "${job.name}"`,
    'opened: 2026-05-12',
    'shop: { name: Workshop Test Garage (invented) }',
    'technician: { name: T. Workshop }',
    ...carYaml(engine),
    `complaint: "${job.complaint}"`,
    ...(job.cause === undefined ? [] : [`cause: "${job.cause}"`]),
    ...(job.correction === undefined ? [] : [`correction: "${job.correction}"`]),
    'instrument: { voltage_uncertainty_percent: 5 }',
    captures.length ? 'captures:' : 'captures: []',
    ...captures.map((c) =>
      captureYaml({
        file: c.file,
        stage: c.stage,
        condition: c.condition ?? 'idle',
        engine,
        taken: moment(c.at),
        warm: c.engine ?? 'warm',
      }),
    ),
    '',
  ].join('\n')
  return new Map<string, string | { key: string; bytes: () => Uint8Array }>([
    ['job.yaml', yaml],
    ['test-log.csv', logText(job.log.map((row) => ({ ...row, at: moment(String(row.at)) })))],
    ...captures.map(
      (c, i) =>
        [
          c.file,
          { key: keyOf(job, c, i), bytes: () => captureCsv(drawWaves(runOf(job, c), dice(1 + i))) },
        ] as const,
    ),
  ])
}

/** The same for captures drawn alike, of whichever job: each is measured once. */
const keyOf = ({ engine, name }: WorkshopJob, c: WorkshopCapture, index: number): string =>
  JSON.stringify([engine, { ...c, at: c.at.length }, name.length, index])

function runOf({ engine, name }: WorkshopJob, c: WorkshopCapture) {
  const own = dice(name.length * 7919 + c.at.length + (c.stage === 'after' ? 31 : 0))
  const cylinders = new Map(
    allOf(engine).map((cylinder) => [
      cylinder,
      {
        ...HEALTHY,
        latePct: own.between(-1, 5),
        firingKv: 9.5 + own.between(-0.3, 0.3),
        midKv: 1.95 * own.between(0.99, 1.01),
        burnMs: 1.45 * own.between(0.99, 1.01),
        ...c.waves?.all,
        ...c.waves?.[cylinder],
      },
    ]),
  )
  const partners = new Map((engine.pairs ?? []).flatMap(([a, b]) => [[a!, b!] as const, [b!, a!] as const]))
  return {
    firingOrder: engine.firingOrder,
    cylinders,
    rpm: c.rpm ?? (c.condition === '2500 rpm' ? 2500 : 800),
    swingRpm: c.swingRpm ?? 8,
    swingS: 1.6,
    cycles: c.cycles ?? 16,
    sampleHz: SAMPLE_HZ,
    pickups: engine.ignition === 'distributor' ? ('one' as const) : ('each' as const),
    ...(partners.size ? { partners } : {}),
  }
}
