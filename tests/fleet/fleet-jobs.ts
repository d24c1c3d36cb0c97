import { sealManifest } from '../../src/seal/seal-manifest.ts'
import { shop } from '../seal/keys.ts'
import { createHash } from 'node:crypto'
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { makeRandom, type Random } from '../../src/maths/random.ts'
import { fleetResultSchema, type FleetResult } from '../../src/fleet/fleet-row.ts'

/** What an invented job is to say, in plain words: the truth its roll-up is held against. */
export interface InventedJob {
  workOrder: string
  date: string
  vin?: string
  unit?: string
  customer?: string
  /** Odd cylinders as found. */
  odd?: Readonly<Record<number, string>>
  borderline?: readonly number[]
  notJudged?: readonly number[]
  cause?: string
  settled?: boolean
  repair?: string
  work?: readonly string[]
  rise?: number
  riseAfter?: number
  odometer?: number
  warnings?: readonly string[]
  remarks?: readonly string[]
  signed?: boolean
  /** A verdict on an odd cylinder that a person holds to be level. */
  overruled?: number
  /** Signed, and its signature taken off again. */
  stripped?: boolean
  words?: readonly [year: number, make: string, model: string]
}

const CYLINDERS = [1, 2, 3, 4]
const value = (of: number) => ({ value: of })

/** A record as a report would write it, down to what a roll-up reads. */
export function recordOf(job: InventedJob): FleetResult {
  const odd = Object.keys(job.odd ?? {}).map(Number)
  const verdict = (n: number) =>
    job.odd?.[n] ??
    (job.borderline?.includes(n) ? 'borderline' : job.notJudged?.includes(n) ? 'not judged' : 'level')
  const farthest = odd[0] ?? 1
  const cylinder = (stage: 'before' | 'after', n: number, rise: number) => ({
    stage,
    cylinder: n,
    verdict: stage === 'before' ? verdict(n) : 'level',
    figures:
      verdict(n) === 'not judged'
        ? { late_rise_pct: { absent: 'clipped' } }
        : {
            late_rise_pct: value(n === farthest ? rise : rise / 10),
            firing_kv: value(9 + n / 10),
            burn_ms: value(1.5 - n / 100),
          },
  })
  const stage = {
    pattern:
      odd.length === 1
        ? `cylinder ${odd[0]}`
        : odd.length === CYLINDERS.length
          ? 'all'
          : odd.length > 0
            ? 'mixed'
            : 'none',
    cylinders: odd,
    speed: { mean_rpm: value(720), swing_rpm: value(25) },
  }
  return fleetResultSchema.parse({
    format: 1,
    program: { name: 'burnline', version: '0.1.0', ...(job.signed ? { signing_key: shop.fingerprint } : {}) },
    job: {
      work_order: job.workOrder,
      opened: job.date,
      closed: null,
      customer: job.customer === undefined ? null : { name: job.customer },
      vehicle: {
        vin: job.vin ?? null,
        vin_check: job.vin === undefined ? 'not given' : 'passes',
        unit_number: job.unit ?? null,
        year: job.words?.[0] ?? null,
        make: job.words?.[1] ?? null,
        model: job.words?.[2] ?? null,
        odometer: job.odometer === undefined ? null : { value: job.odometer, unit: 'km' },
      },
      instrument: { voltage_uncertainty_stated: true },
    },
    captures: [{ remarks: (job.remarks ?? []).map((code) => ({ code })) }],
    cylinders: [
      ...CYLINDERS.map((n) => cylinder('before', n, job.rise ?? (odd.length > 0 ? 31 : 4))),
      ...(job.riseAfter === undefined ? [] : CYLINDERS.map((n) => cylinder('after', n, job.riseAfter!))),
    ],
    engine: { before: stage, after: null },
    tests: [],
    causes: job.cause === undefined ? [] : [{ id: job.cause, probability: 0.9 }],
    ledger: { kind: job.settled === false ? 'several' : 'clear' },
    repair: { verdict: job.repair ?? 'not checked', work: [...(job.work ?? [])] },
    ...(job.overruled === undefined
      ? {}
      : {
          review: [
            {
              by: 'R. Example',
              of: 'verdict',
              cylinder: job.overruled,
              stage: 'before',
              said: job.odd?.[job.overruled] ?? 'level',
              instead: 'level',
              agrees: false,
            },
          ],
        }),
    limits: [{ changed: false }],
    problems: (job.warnings ?? []).map((code) => ({ code, severity: 'warn' })),
  })
}

/** Writes an output folder with a record and a manifest that agrees with it. */
export function writeOutput(root: string, job: InventedJob): string {
  const folder = join(root, job.workOrder)
  mkdirSync(folder, { recursive: true })
  const text = `${JSON.stringify(recordOf(job))}\n`
  writeFileSync(join(folder, 'result.json'), text)
  writeFileSync(
    join(folder, 'manifest.json'),
    sealed(job, {
      format: 1,
      program: { name: 'burnline', version: '0.1.0' },
      work_order: job.workOrder,
      verdict: '',
      made_with: { program: '', templates: {}, options: {} },
      inputs: [],
      outputs: [
        { file: 'result.json', sha256: createHash('sha256').update(text).digest('hex'), bytes: text.length },
      ],
      limits: [],
    }),
  )
  return folder
}

/** Signed where the job is, and not where its signature was taken off. */
const sealed = (job: InventedJob, manifest: object): string =>
  sealManifest(
    `${JSON.stringify(manifest, null, 2)}\n`,
    job.signed && !job.stripped ? { signer: shop, record: '0'.repeat(64) } : undefined,
  )

const FAULTS = [
  { verdict: 'lean', cause: 'leak-runner-joint' },
  { verdict: 'lean', cause: 'injector-restricted' },
  { verdict: 'rich', cause: 'injector-leaking' },
  { verdict: 'low compression', cause: 'compression-loss' },
  { verdict: 'external resistance', cause: 'secondary-cylinder' },
  { verdict: 'misfiring', cause: 'plug-fouled' },
] as const
const REPAIRS = [
  'repair confirmed',
  'repair confirmed',
  'improved, not in order',
  'no change',
  'not checked',
  'not checked',
] as const
const MODELS = [
  [2009, 'Example', 'Wagon'],
  [2014, 'Sample', 'Van'],
  [2018, 'Instance', 'Pickup'],
] as const

/** An invented fleet: `vehicles` vehicles with some jobs each over five years, faults that come back now and then. */
export function inventFleet(vehicles: number, jobs: number, seed = 4711): InventedJob[] {
  const random = makeRandom(seed)
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random.uniform() * list.length)]!
  return Array.from({ length: jobs }, (_, i) => {
    const vehicle = i < vehicles ? i : Math.floor(random.uniform() * vehicles)
    return inventJob(i, vehicle, { random, pick })
  })
}

function inventJob(
  i: number,
  vehicle: number,
  { random, pick }: { random: Random; pick: <T>(list: readonly T[]) => T },
): InventedJob {
  const fault = FAULTS[(vehicle + Math.floor(random.uniform() * 2)) % FAULTS.length]!
  const isOdd = random.uniform() < 0.7
  const repair = isOdd ? pick(REPAIRS) : 'not checked'
  const months = Math.floor(random.uniform() * 60)
  const marked =
    vehicle % 4 === 3
      ? { unit: `${100 + vehicle}`, customer: 'Example Fleet' }
      : { vin: `1M8GDM9AXKP${String(100000 + vehicle)}`, unit: `${100 + vehicle}`, customer: 'Example Fleet' }
  const rise = isOdd ? 24 + 20 * random.uniform() : 6 * random.uniform()
  return {
    workOrder: `J-${String(i + 1).padStart(6, '0')}`,
    date: `${2021 + Math.floor(months / 12)}-${String((months % 12) + 1).padStart(2, '0')}-${String(1 + Math.floor(random.uniform() * 28)).padStart(2, '0')}`,
    ...marked,
    words: MODELS[vehicle % MODELS.length]!,
    odometer: 40_000 + 900 * months + 10 * vehicle,
    rise,
    signed: random.uniform() < 0.5,
    ...(isOdd
      ? {
          odd: { [1 + (vehicle % 4)]: fault.verdict },
          cause: fault.cause,
          settled: random.uniform() < 0.8,
          work: random.uniform() < 0.85 ? ['Work done'] : [],
        }
      : {}),
    ...(!isOdd && random.uniform() < 0.3 ? { borderline: [2] } : {}),
    repair,
    ...(repair === 'repair confirmed' ? { riseAfter: 5 * random.uniform() } : {}),
    warnings: random.uniform() < 0.2 ? ['default-uncertainty'] : [],
    remarks: random.uniform() < 0.1 ? ['mains-hum'] : [],
  }
}
