import { sha256 } from '../../../src/maths/sha256.ts'
import { dice as makeDice, type Dice } from './dice.ts'
import { captureCsv, captureYaml, carYaml, SAMPLE_HZ } from './capture-file.ts'
import { drawEngine, type ComposedEngine } from './engines.ts'
import {
  drawFault,
  factsOf,
  faultKinds,
  LEAKS,
  type EngineFacts,
  type Fault,
  type FaultKind,
} from './faults.ts'
import { logText } from '../../../src/job/edit-log.ts'
import { clock, writeTests, type LogRow, type Shown } from './log-rows.ts'
import { drawWaves, type EngineRun } from './wave.ts'

/** What was done to the engine, told by its effect. */
type Work = 'none' | 'right' | 'wrong' | 'half' | 'uncovers' | 'masked'

/** A capture of the job: drawn when it is asked for, and the same bytes for the same key. */
interface Drawn {
  key: string
  bytes: () => Uint8Array
}

/** Files of a job folder by their path in it. */
export type JobFiles = ReadonlyMap<string, string | Drawn>

/** What is so, whatever the record says of it. */
export interface Truth {
  engine: ComposedEngine
  /** Faults when the car came in, and after the work (the same ones without work). */
  found: readonly Fault[]
  now: readonly Fault[]
  work: Work
  /** Whether a capture of the stage exists that shows the engine warm and at its time. */
  captured: { before: boolean; after: 'no' | 'good' | 'cold' | 'early' }
  /** Faults that figures or findings of the record show. */
  shown: readonly Shown[]
  /** Causes about whose place the log notes what is not so. */
  mistaken: readonly string[]
  facts: { before: EngineFacts; after: EngineFacts }
  /** The cause the technician states, and whether it is one of the true ones. */
  stated: 'right' | 'wrong' | 'none'
}

export interface ComposedJob {
  seed: number
  workOrder: string
  truth: Truth
  /** Files of the job folder by their path in it. */
  files: JobFiles
}

/** Kinds that may stand beside another fault without hiding it. */
const BESIDE: readonly FaultKind[] = ['open lead', 'coil', 'valve', 'injector leaking']

/** Draws a whole job from a seed: the same seed, the same bytes. */
export function composeJob(seed: number): ComposedJob {
  const dice = makeDice(seed)
  const engine = drawEngine(dice)
  const found = drawFaults(engine, dice)
  const work: Work = found.length === 0 ? 'none' : drawWork(found, dice)
  const now = afterWork(work, { engine, found, dice })
  const variant = dice.integer(VARIANTS)
  const wavesBefore = wavesOf(engine, found, { variant, masked: false })
  const wavesAfter = wavesOf(engine, now, { variant: (variant + 1) % VARIANTS, masked: work === 'masked' })
  const before = { ...factsOf(engine, found, dice), ...wavesBefore.facts }
  const after =
    work === 'none'
      ? before
      : {
          ...factsOf(engine, now, dice),
          ...(work === 'masked' ? { trims: before.trims } : {}),
          ...wavesAfter.facts,
        }
  const zeal = dice.weighed([[0.35, 1] as const, [0.7, 2] as const, [1, 2] as const])
  const errs = dice.chance(0.15)
  const captured = {
    before: dice.chance(0.9),
    after: work === 'none' ? ('no' as const) : dice.weighed(AFTER),
  }
  if (!captured.before && captured.after === 'no') captured.before = true

  const tests = writeTests({
    engine,
    faults: found,
    facts: before,
    stage: 'before',
    dice,
    zeal,
    errs,
    from: 5,
  })
  const repairAt = tests.until + 45
  const done = repaired(work, { engine, found, dice })
  const repair: LogRow[] =
    done === undefined ? [] : [{ at: clock(repairAt), step: 'repair', place: done, ...wordOf(work, dice) }]
  const later =
    work === 'none'
      ? undefined
      : writeTests({
          engine,
          faults: now,
          facts: after,
          stage: 'after',
          dice,
          zeal: work === 'masked' ? 1 : zeal * 0.6,
          errs: false,
          from: repairAt + 5,
        })
  const shown = [
    ...tests.shown,
    ...(later?.shown ?? []),
    ...(captured.before ? found.filter(plainInWaves).map((fault) => byCapture('before', fault)) : []),
    ...(captured.after === 'good' && work !== 'masked'
      ? now.filter(plainInWaves).map((fault) => byCapture('after', fault))
      : []),
  ]
  const captures = new Map<string, Drawn>()
  const entries: string[] = []
  const record = (stage: 'before' | 'after', waves: Waves, how: { at: number; engine: string }) => {
    const file = `captures/${stage}.csv`
    captures.set(file, {
      key: waves.key,
      bytes: () => captureCsv(drawWaves(waves.run, makeDice(waves.seed))),
    })
    entries.push(captureYaml({ file, stage, engine, taken: clock(how.at), warm: how.engine }))
  }
  if (captured.before) record('before', wavesBefore, { at: 2, engine: 'warm' })
  if (captured.after !== 'no')
    record(
      'after',
      captured.after === 'early'
        ? wavesOf(engine, found, { variant: (variant + 1) % VARIANTS, masked: false })
        : wavesAfter,
      {
        at: captured.after === 'early' ? repairAt - 20 : (later?.until ?? repairAt) + 5,
        engine: captured.after === 'cold' ? 'cold' : 'warm',
      },
    )

  const { stated, cause } = drawStated({ engine, found, dice })
  const workOrder = `CM-${seed}`
  const rows = [...tests.rows, ...repair, ...(later?.rows ?? [])]
  const files = new Map<string, string | Drawn>([
    [
      'job.yaml',
      jobYaml({ workOrder, engine, entries, traces: [...tests.traces.keys()], cause, done, dice }),
    ],
    ['test-log.csv', logText(rows)],
    ...tests.traces,
    ...captures,
  ])
  const truth: Truth = {
    engine,
    found,
    now,
    work,
    captured,
    shown,
    mistaken: tests.mistaken,
    facts: { before, after },
    stated,
  }
  return { seed, workOrder, truth, files }
}

const AFTER = [
  ['good', 7],
  ['no', 2],
  ['cold', 0.7],
  ['early', 0.7],
] as const

function drawFaults(engine: ComposedEngine, dice: Dice): Fault[] {
  if (dice.chance(0.1)) return []
  const first = drawFault(engine, dice)
  if (dice.chance(0.8)) return [first]
  const among =
    first.kind === 'injector restricted' ? [first.kind] : BESIDE.filter((kind) => kind !== first.kind)
  const second = drawFault(engine, dice, among)
  // two faults of one cylinder hide each other
  const apart = first.cylinders.length > 1 || first.cylinders[0] !== second.cylinders[0]
  return apart && !first.small ? [first, second] : [first]
}

function drawWork(found: readonly Fault[], dice: Dice): Work {
  const leak = found.length === 1 && LEAKS.includes(found[0]!.kind) && found[0]!.cylinders.length > 1
  return dice.weighed([
    ['none', 3],
    ['right', 5],
    ['wrong', 2],
    ['half', found.length > 1 ? 4 : 0],
    ['uncovers', 1],
    ['masked', leak ? 1 : 0],
  ] as const)
}

type About = { engine: ComposedEngine; found: readonly Fault[]; dice: Dice }

function afterWork(work: Work, { engine, found, dice }: About): readonly Fault[] {
  if (work === 'right') return []
  if (work === 'half') return found.slice(1)
  // a lead or a plug of coil left off
  if (work === 'uncovers')
    return [drawFault(engine, dice, [engine.ignition === 'distributor' ? 'open lead' : 'coil'])]
  return found
}

/** How many ways the same engine with the same faults is drawn: what measures it takes most of a job's time. */
const VARIANTS = 3

/** The waves of an engine with these faults in one of their variants. */
interface Waves {
  key: string
  seed: number
  run: EngineRun
  facts: Pick<EngineFacts, 'cylinders' | 'swingRpm'>
}

/** @param how  `masked`: the fuel control makes up for the leak, and the lines are in order */
function wavesOf(
  engine: ComposedEngine,
  faults: readonly Fault[],
  how: { variant: number; masked: boolean },
): Waves {
  const key = JSON.stringify([engine, faults.map((f) => [f.kind, f.cylinders, f.small]), how])
  const seed = Number.parseInt(sha256(key).slice(0, 8), 16)
  const own = makeDice(seed)
  const { cylinders, swingRpm } = factsOf(engine, faults, own)
  const level = [...cylinders].map(([c, wave]) => [c, { ...wave, latePct: 4 }] as const)
  const facts = how.masked ? { cylinders: new Map(level), swingRpm: 10 } : { cylinders, swingRpm }
  return {
    key,
    seed,
    facts,
    run: {
      firingOrder: engine.firingOrder,
      ...facts,
      rpm: own.between(760, 880),
      swingS: own.between(1.2, 2.2),
      cycles: 14 + own.integer(5),
      sampleHz: SAMPLE_HZ,
      pickups: engine.ignition === 'distributor' ? 'one' : 'each',
    },
  }
}

/** The place worked at, in the technician's words; undefined where nothing was done. */
function repaired(work: Work, { engine, found, dice }: About): string | undefined {
  if (work === 'none') return undefined
  if (work !== 'wrong')
    return found.length > 1 && work !== 'half' ? found.map((f) => f.place).join(' and ') : found[0]!.place
  const causes = found.map((f) => f.cause)
  const amiss = faultKinds.filter((kind) => kind !== 'coil' && kind !== 'open lead')
  for (;;) {
    const other = drawFault(engine, dice, amiss)
    if (
      !causes.includes(other.cause) &&
      !(/injector/.test(other.kind) && found.some((f) => /injector|runner/.test(f.kind)))
    )
      return other.place
  }
}

const wordOf = (work: Work, dice: Dice): LogRow =>
  dice.chance(0.6)
    ? { outcome: work === 'wrong' && dice.chance(0.5) ? 'not fixed' : 'fixed' }
    : { note: 'renewed' }

/** Plain to a practised eye in the lines of a warm idle. */
const plainInWaves = ({ small }: Fault): boolean => !small
const byCapture = (stage: Shown['stage'], fault: Fault): Shown => ({ stage, fault, by: 'capture' })

function drawStated({ engine, found, dice }: About): { stated: Truth['stated']; cause: string | undefined } {
  const stated = dice.weighed([
    ['none', 6],
    ['right', found.length > 0 ? 2 : 0],
    ['wrong', found.length > 0 ? 1 : 0],
  ] as const)
  if (stated === 'none') return { stated, cause: undefined }
  if (stated === 'right') return { stated, cause: `${found[0]!.place} faulty` }
  for (;;) {
    const other = drawFault(engine, dice)
    if (!found.some((f) => f.cause === other.cause)) return { stated, cause: `${other.place} faulty` }
  }
}

function jobYaml(it: {
  workOrder: string
  engine: ComposedEngine
  entries: readonly string[]
  traces: readonly string[]
  cause: string | undefined
  done: string | undefined
  dice: Dice
}): string {
  const { engine, dice } = it
  const traces = it.traces.map(
    (file) =>
      `  - file: ${file}\n    time: { column: time_s, unit: s }\n    channels: [ { column: rpm, carries: speed, unit: rpm } ]`,
  )
  return [
    'format: 1',
    `work_order: "${it.workOrder}"`,
    'opened: 2026-05-12',
    'shop: { name: Composed Test Garage (invented) }',
    'technician: { name: T. Composed }',
    ...carYaml(engine),
    `complaint: "${dice.pick(['shakes at idle', 'light on', 'uneven idle', 'hesitates'])}"`,
    ...(it.cause === undefined ? [] : [`cause: "${it.cause}"`]),
    ...(it.done !== undefined && dice.chance(0.5) ? [`correction: "${it.done} renewed"`] : []),
    'instrument: { voltage_uncertainty_percent: 5 }',
    'captures:',
    ...it.entries,
    ...(traces.length > 0 ? ['traces:', ...traces] : []),
    '',
  ].join('\n')
}
