import type { Job } from '../../../src/job/schema.ts'
import { loadCauses } from '../../../src/limits/load-causes.ts'
import { loadLimits, type Limits } from '../../../src/limits/limits.ts'
import type { TestFinding } from '../../../src/test-log/findings.ts'
import { readTests } from '../../../src/test-log/read-tests.ts'
import type { CylinderSummaries } from '../../../src/metrics/figures.ts'
import { absent, measured } from '../../../src/units/measured.ts'
import { standsApart } from '../../../src/verdicts/apart/index.ts'
import type { ReadCylinder } from '../../../src/verdicts/apart/reading.ts'
import { candidateKey } from '../../../src/verdicts/causes/candidates.ts'
import { causesInForce } from '../../../src/verdicts/causes/override.ts'
import type { EngineLayout } from '../../../src/verdicts/causes/engine-layout.ts'
import { ranked } from '../../../src/verdicts/causes/ledger.ts'
import { weighCauses, type WeighedCauses } from '../../../src/verdicts/causes/weigh-causes.ts'
import type { RepairVerdict, VerdictName } from '../../../src/verdicts/verdict-names.ts'

/** One row of a log, as cells; `traced` stands for a spray judged from a speed trace rather than by ear. */
export interface Row {
  cells: Readonly<Record<string, string>>
  traced?: boolean
}

/** A worked case: what is known, and what a technician would say. */
export interface WorkedCase {
  name: string
  engine: EngineLayout
  /** Verdicts of the captures before the repair; cylinders not named are level. Undefined: no captures. */
  burn:
    | Readonly<Record<number, VerdictName>>
    | 'all lean'
    | 'all level'
    | 'all falling'
    | 'all circuit'
    | 'all misfiring'
    | undefined
  /** Firing voltage apart from the others', kV. */
  firing?: Readonly<Record<number, number>>
  /** Firing voltage of every cylinder at idle, kV; 10 where not told. */
  firingKv?: number
  /** Burn time, ms, where it is not 1.4; for all, or by cylinder. */
  burnMs?: number | Readonly<Record<number, number>>
  /** Coil oscillations, where they are not 4. */
  cycles?: Readonly<Record<number, number>>
  swingRpm?: number
  /** Verdicts after the work; undefined: no captures then. */
  after?: WorkedCase['burn']
  log: readonly Row[]
  repair?: RepairVerdict
  /** Key of the cause expected first (`id` or `id|place`); several where practice could not tell either. */
  first: string | readonly string[]
  /** Causes (ids) that must not be first. */
  never: readonly string[]
  /** Whether it may be called clear. */
  clear?: boolean
}

export const inline = (count: number): EngineLayout => ({
  cylinders: Array.from({ length: count }, (_, i) => i + 1),
  banks: undefined,
})
export const v6: EngineLayout = { cylinders: [1, 2, 3, 4, 5, 6], banks: { 1: [1, 3, 5], 2: [2, 4, 6] } }
export const v8: EngineLayout = {
  cylinders: [1, 2, 3, 4, 5, 6, 7, 8],
  banks: { 1: [1, 3, 5, 7], 2: [2, 4, 6, 8] },
}

const row = (cells: Record<string, string>): Row => ({ cells })
export const spray = (place: string, outcome: 'response' | 'no response', stage = 'before'): Row => ({
  ...row({ step: 'spray', place, outcome, condition: 'idle', reading: 'propane', stage }),
  traced: true,
})
export const heard = (place: string, outcome: 'response' | 'no response'): Row =>
  row({ step: 'spray', place, outcome, condition: 'idle', reading: 'propane' })
export const cap = (place: string, outcome = ''): Row => row({ step: 'cap', place, outcome })
export const uncap = (place: string): Row => row({ step: 'uncap', place })
export const smoke = (place: string, outcome: 'leak' | 'no leak'): Row =>
  row({ step: 'smoke', place, outcome })
export const repair = (place: string, outcome = 'fixed'): Row => row({ step: 'repair', place, outcome })
export const code = (reading: string): Row => row({ step: 'code', reading })
export const reads = (step: string, reading: string, value: number, more: Record<string, string> = {}): Row =>
  row({ step, reading, value: String(value), ...more })
/** Total trims of a condition, as one row a bank. */
export const trim = (condition: string, totals: readonly number[], stage = 'before'): Row[] =>
  totals.flatMap((total, i) => [
    reads('trim', `STFT${i + 1}`, Math.round(total / 3), {
      unit: '%',
      condition,
      stage,
      at: `trim ${stage} ${condition}`,
    }),
    reads('trim', `LTFT${i + 1}`, total - Math.round(total / 3), {
      unit: '%',
      condition,
      stage,
      at: `trim ${stage} ${condition}`,
    }),
  ])
export const pressure = (keyOn: number, hold?: number): Row[] => [
  reads('fuel-pressure', 'key-on', keyOn, {
    unit: 'kPa',
    expected_low: '330',
    expected_high: '370',
    at: 'pressure',
  }),
  ...(hold === undefined ? [] : [reads('fuel-pressure', 'hold', hold, { unit: 'kPa', at: 'pressure' })]),
]
export const vacuum = (inHg: number): Row =>
  reads('vacuum', 'manifold', inHg, {
    unit: 'inHg',
    condition: 'idle',
    expected_low: '17',
    expected_high: '22',
  })
export const compression = (bars: readonly number[]): Row[] =>
  bars.map((bar, i) => reads('compression', `cylinder ${i + 1}`, bar, { unit: 'bar', at: 'compression' }))
export const gas = (g: { CO: number; CO2: number; HC: number; O2: number }): Row[] =>
  Object.entries(g).map(([name, value]) =>
    reads('gas', name, value, { unit: name === 'HC' ? 'ppm' : '%vol', condition: 'idle', at: 'gas' }),
  )

const LIMITS = loadLimits()
const TABLE = causesInForce({ ...loadCauses(), overrides: undefined })
export const table = TABLE.table
export const limits = LIMITS

/** The log of a case read as any log is; rows with the same `at` are one moment. `order` shuffles the rows, not their times. */
export function testsOf(log: readonly Row[], order: (rows: number[]) => number[] = (r) => r): TestFinding[] {
  const moments = [...new Set(log.map((r, i) => r.cells['at'] ?? `row ${i}`))]
  const at = (r: Row, i: number) => {
    const minute = moments.indexOf(r.cells['at'] ?? `row ${i}`)
    return `2026-03-02T${String(8 + Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}:00Z`
  }
  const rows = order(log.map((_, i) => i)).map((i, place) => ({
    line: place + 2,
    cells: { ...log[i]!.cells, at: at(log[i]!, i) },
  }))
  const { tests, problems } = readTests({
    log: rows,
    traces: new Map(),
    job: { engine: { fuel: 'E10' } } as Job,
    limits: LIMITS,
  })
  if (problems.length) throw new Error(JSON.stringify(problems))
  const traced = new Set(log.flatMap((r, i) => (r.traced ? [at(r, i)] : [])))
  return tests.map((t) =>
    t.step !== 'spray' || !traced.has(t.at) || !t.facts
      ? t
      : { ...t, observed: false, facts: t.facts.map((f) => ({ ...f, sure: true })) },
  )
}

const ALL: Readonly<Record<string, VerdictName>> = {
  'all lean': 'lean',
  'all level': 'level',
  'all falling': 'falling',
  'all circuit': 'external resistance',
  'all misfiring': 'misfiring',
}

/** Weighs a case, with other rows or in another order where asked. */
export function weighCase(
  of: WorkedCase,
  {
    log = of.log,
    order,
    limits: under = LIMITS,
  }: { log?: readonly Row[]; order?: (rows: number[]) => number[]; limits?: Limits } = {},
): WeighedCauses {
  const { burn, engine } = of
  const picture = (of: WorkedCase, burn: WorkedCase['burn']) => {
    if (burn === undefined) return []
    const read = engine.cylinders.map((cylinder): ReadCylinder => readAs(cylinder, of, burn))
    return read.map((own) => ({
      cylinder: own.cylinder,
      verdict: own.verdict,
      apart: standsApart({
        own,
        fellows: read.filter((r) => r !== own),
        pickup: 'common lead',
        running: 'idle',
        kvKnown: true,
        firingKnown: true,
        limits: LIMITS,
      }),
    }))
  }
  const plain: WorkedCase = { ...of, firing: {}, firingKv: 10, burnMs: {}, cycles: {} }
  const tests = testsOf(log, order)
  return weighCauses(
    {
      engine,
      tests,
      captures: {
        cylinders: picture(of, burn),
        swing: of.swingRpm === undefined ? absent('not-visible') : measured(of.swingRpm, 3, 'rpm'),
      },
      after: { cylinders: picture(plain, of.after), swing: absent('not-recorded') },
      repair: { verdict: of.repair ?? 'not checked', restsOn: of.repair ? 'captures' : 'nothing' },
    },
    TABLE,
    under,
  )
}

/** Summaries of a cylinder as a case tells them, each within 3 % (k = 1). */
function readAs(cylinder: number, of: WorkedCase, burn: NonNullable<WorkedCase['burn']>): ReadCylinder {
  const summary = (value: number, unit: 'kV' | 'ms' | 'cycles') => {
    const u = 0.03 * value
    const budget = [{ source: 'scatter', u }]
    return { ok: true, value, low: value - 2 * u, high: value + 2 * u, unit, mad: u, n: 40, budget }
  }
  const burnMs = typeof of.burnMs === 'number' ? of.burnMs : (of.burnMs?.[cylinder] ?? 1.4)
  return {
    cylinder,
    capture: 'captures/idle.csv',
    verdict: typeof burn === 'string' ? ALL[burn]! : (burn[cylinder] ?? 'level'),
    polarity: undefined,
    figures: {
      firingKv: summary((of.firingKv ?? 10) + (of.firing?.[cylinder] ?? 0), 'kV'),
      burnMs: summary(burnMs, 'ms'),
      coilCycles: summary(of.cycles?.[cylinder] ?? 4, 'cycles'),
    } as unknown as CylinderSummaries,
  }
}

/** Key of the cause that stands first. */
export const firstOf = (weighed: WeighedCauses): string => candidateKey(ranked(weighed.ledger)[0]!.candidate)
export const idOf = (key: string): string => key.split('|')[0]!
export const expected = (of: WorkedCase): readonly string[] =>
  typeof of.first === 'string' ? [of.first] : of.first
