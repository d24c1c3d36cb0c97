import { z } from 'zod'
import { judgeHistory, type JudgedHistory } from '../verdicts/history/judge-history.ts'
import { FOLLOWED, type Visit, type VisitCylinder } from '../verdicts/history/visit.ts'
import type { Limits } from '../limits/limits.ts'
import { sameVehicle, type Identity, type VehicleMarks } from './vehicle-marks.ts'

/** An earlier output as it stood when the call began, by what a later report may ask of it. Plain data. */
export interface HistoryEntry {
  /** Absolute path of the output's folder, and its name. */
  folder: string
  name: string
  /** SHA-256 and size of its manifest.json. */
  sha256: string
  bytes: number
  vehicle: VehicleMarks
  visit: Visit
}

/** The outputs handed in as history: those that can be read, and the names of those that cannot. */
export interface HistoryIndex {
  entries: readonly HistoryEntry[]
  unreadable: readonly string[]
}

/** The job a history is asked for. */
export interface AskedJob {
  workOrder: string
  opened: string
  vehicle: VehicleMarks
}

/** Outputs that bear on a job: earlier visits of its vehicle, and earlier visits of others that show what scatter is usual. */
export interface Bearing {
  own: readonly { entry: HistoryEntry; by: Identity }[]
  others: readonly (readonly HistoryEntry[])[]
}

/** Own visits from which the shop's other vehicles are no longer asked; and most outputs of others that are. */
const ENOUGH_VISITS = 6
const MOST_OTHERS = 24

/** Which outputs bear on a job. Another output of the same work order is no earlier visit, and neither is one opened later. */
export function bearingOn({ entries }: HistoryIndex, job: AskedJob): Bearing {
  const earlier = entries
    .filter(({ visit }) => visit.workOrder !== job.workOrder && before(visit, job))
    .sort((a, b) => (before(a.visit, b.visit) ? -1 : 1))
  const own = earlier.flatMap((entry) => {
    const by = sameVehicle(entry.vehicle, job.vehicle)
    return by === undefined ? [] : [{ entry, by }]
  })
  const known = new Set(own.map(({ entry }) => entry))
  if (own.length >= ENOUGH_VISITS) return { own, others: [] }
  const vehicles: HistoryEntry[][] = []
  for (const entry of earlier) {
    if (known.has(entry)) continue
    const same = vehicles.find(([first]) => sameVehicle(first!.vehicle, entry.vehicle))
    if (same) same.push(entry)
    else vehicles.push([entry])
  }
  let left = MOST_OTHERS
  const others = vehicles
    .filter((visits) => visits.length > 1)
    .reverse()
    .filter((visits) => (left -= visits.length) >= 0)
  return { own, others }
}

const before = (a: Pick<Visit, 'opened' | 'workOrder'>, b: Pick<Visit, 'opened' | 'workOrder'>): boolean =>
  a.opened < b.opened || (a.opened === b.opened && a.workOrder < b.workOrder)

/** What a report made with this history depends on: digests of the manifests, and the names that could not be read. */
export const bearingDigests = ({ own, others }: Bearing, { unreadable }: HistoryIndex): string[] => [
  ...own.map(({ entry }) => entry.sha256),
  ...others.flat().map((entry) => entry.sha256),
  ...unreadable,
]

/** How an earlier output stands: as it was made, changed since, or without the signature that this call asks for. */
export type Hold = 'holds' | 'altered' | 'not signed'

/** Why an output is left out. */
type LeftOut = 'unreadable' | 'other engine' | Exclude<Hold, 'holds'>

/** The history of the job's vehicle, judged. */
export interface FoundHistory {
  visits: readonly { entry: HistoryEntry; by: Identity }[]
  leftOut: readonly { name: string; why: LeftOut }[]
  /** Other vehicles whose scatter was asked, and their outputs. */
  others: readonly (readonly HistoryEntry[])[]
  judged: JudgedHistory
}

/**
 * The earlier visits of a job's vehicle that hold, and what was recorded now held against them.
 *
 * @param holds  how an output stands, by what its manifest says, and that manifest the one of the index
 */
export async function findHistory(
  index: HistoryIndex,
  job: AskedJob,
  it: {
    now: Pick<Visit, 'instrument' | 'cylinders'>
    holds: (entry: HistoryEntry) => Promise<Hold>
    limits: Limits
  },
): Promise<FoundHistory> {
  const bearing = bearingOn(index, job)
  const leftOut: { name: string; why: LeftOut }[] = index.unreadable.map((name) => ({
    name,
    why: 'unreadable',
  }))
  const visits: FoundHistory['visits'][number][] = []
  for (const visit of bearing.own) {
    const { entry } = visit
    const hold = await it.holds(entry)
    if (hold !== 'holds') leftOut.push({ name: entry.name, why: hold })
    else if (entry.vehicle.engine !== job.vehicle.engine)
      leftOut.push({ name: entry.name, why: 'other engine' })
    else visits.push(visit)
  }
  const others: HistoryEntry[][] = []
  for (const vehicle of bearing.others) {
    const held: HistoryEntry[] = []
    for (const entry of vehicle) {
      const hold = await it.holds(entry)
      if (hold === 'holds') held.push(entry)
      else leftOut.push({ name: entry.name, why: hold })
    }
    if (held.length > 1) others.push(held)
  }
  const judged = judgeHistory(
    it.now,
    visits.map(({ entry }) => entry.visit),
    { others: others.map((vehicle) => vehicle.map((entry) => entry.visit)), limits: it.limits },
  )
  return { visits, leftOut, others, judged }
}

const figure = z.union([
  z.object({ value: z.number(), low: z.number(), high: z.number() }),
  z.object({ absent: z.string() }),
])

/** The part of result.json that a history reads; looser than the record's own schema, so that earlier records count. */
export const visitSchema = z.object({
  format: z.literal(1),
  job: z.object({
    work_order: z.string(),
    opened: z.string(),
    customer: z.record(z.string(), z.string()).nullable(),
    vehicle: z.object({
      vin: z.string().nullable(),
      plate: z.string().nullish(),
      unit_number: z.string().nullable(),
      odometer: z.object({ value: z.number(), unit: z.string() }).nullable(),
    }),
    engine: z.object({ cylinders: z.number(), firing_order: z.array(z.number()) }),
    instrument: z.object({ description: z.string().nullable() }),
  }),
  captures: z.array(z.object({ file: z.string(), condition: z.string(), engine: z.string() })),
  pools: z.array(z.object({ capture: z.string(), condition: z.string(), engine: z.string() })).optional(),
  cylinders: z.array(
    z.object({
      stage: z.enum(['before', 'after']),
      capture: z.string(),
      cylinder: z.number(),
      verdict: z.string(),
      apart: z.array(z.unknown()).optional(),
      figures: z.record(z.string(), figure),
    }),
  ),
})

/** A recording that figures are followed on. */
const isUsual = ({ condition, engine }: { condition: string; engine: string }): boolean =>
  condition === 'idle' && engine === 'warm'

/** What a record says of its visit: cylinders recorded at a warm idle, each once a stage, with the figures that are followed. */
export function visitOf({ job, captures, pools = [], cylinders }: z.infer<typeof visitSchema>): Visit {
  const warmIdle = new Set(
    [...captures.map((c) => ({ ...c, capture: c.file })), ...pools]
      .filter(isUsual)
      .map(({ capture }) => capture),
  )
  const rows = cylinders.filter((c) => warmIdle.has(c.capture))
  const isHealthy = (c: (typeof rows)[number]) => c.verdict === 'level' && (c.apart ?? []).length === 0
  const keys = [...new Set(rows.map((c) => `${c.stage} ${c.cylinder}`))]
  return {
    workOrder: job.work_order,
    opened: job.opened,
    odometer: job.vehicle.odometer,
    instrument: job.instrument.description,
    cylinders: keys.map((key): VisitCylinder => {
      const of = rows.filter((c) => `${c.stage} ${c.cylinder}` === key)
      // of several recordings the one that could be judged, and of these the last: a pool stands behind what it is made of
      const row = of.findLast((c) => c.verdict !== 'not judged') ?? of[0]!
      return {
        stage: row.stage,
        cylinder: row.cylinder,
        healthy: of.every((c) => c.verdict === 'not judged' || isHealthy(c)) && isHealthy(row),
        figures: Object.fromEntries(
          FOLLOWED.flatMap((name) => {
            const read = row.figures[name]
            return read && 'value' in read
              ? [[name, { value: read.value, low: read.low, high: read.high }]]
              : []
          }),
        ),
      }
    }),
  }
}
