import { mkdirSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { readCapture } from '../../../src/capture/read-capture.ts'
import { findEvents } from '../../../src/ignition/find-events.ts'
import { readJob } from '../../../src/job/read-job.ts'
import { loadLimits, type Limits } from '../../../src/limits/limits.ts'
import { makeRandom } from '../../../src/maths/random.ts'
import type { MeasuredEvent } from '../../../src/metrics/figures.ts'
import { measureEvents } from '../../../src/metrics/measure-events.ts'
import { JobError, type Problem } from '../../../src/problems/problem.ts'
import { readTests } from '../../../src/test-log/read-tests.ts'
import type { Texts } from '../../../src/texts/messages.ts'
import { compareCapture } from './capture-reader.ts'
import { flipped } from './mutate.ts'
import { Finding, outcomeOf, type Outcome } from './outcome.ts'
import { FIRST_SEED, LONGEST_MS, type FuzzFinding, type FuzzTotals } from './run-fuzz.ts'
import { smallJob } from './small-job.ts'

/** How many bits are turned one by one, and every so many bytes captures, and job.yaml and the log, are cut; 1 for every place. */
export interface Damaging {
  flips: number
  captureStep: number
  ownStep: number
}

interface Damage {
  what: string
  file: string
  bytes: Buffer
  cut: boolean
}

/**
 * A small job with one file cut at every place, then with single bits turned: each is read, its events measured, its
 * log read. Figures of a cut capture are held against those of the whole.
 */
export async function damageSmallJob(
  folder: string,
  much: Damaging,
  about: { texts: Texts; nowMs: () => number; told?: (at: number) => void },
): Promise<FuzzTotals> {
  const files = smallJob()
  for (const [file, bytes] of files) put(folder, file, bytes)
  const limits = loadLimits()
  const whole = (await readWhole(folder, files, limits)).events
  const ends: Record<Outcome, number> = { right: 0, flagged: 0, refused: 0 }
  const findings: FuzzFinding[] = []
  let [slowestMs, at] = [0, 0]
  for (const damage of damages(files, much)) {
    about.told?.(at)
    const start = about.nowMs()
    try {
      ends[await outcomeOf(about.texts, () => readDamaged(folder, damage, { files, limits, whole }))]++
      const took = about.nowMs() - start
      slowestMs = Math.max(slowestMs, took)
      if (took > LONGEST_MS) throw new Finding(`took ${Math.round(took)} ms`)
    } catch (cause) {
      if (!(cause instanceof Finding)) throw cause
      findings.push({
        reader: 'damaged-job',
        at,
        seed: damage.what,
        what: cause.message,
        bytes: damage.bytes,
      })
    }
    at++
  }
  return { reader: 'damaged-job', ends, slowestMs, findings }
}

function* damages(
  files: ReadonlyMap<string, Buffer>,
  { flips, captureStep, ownStep }: Damaging,
): Generator<Damage> {
  for (const [file, bytes] of files) {
    const step = file.startsWith('captures/') ? captureStep : ownStep
    for (let end = 0; end < bytes.length; end += step)
      yield { what: `${file} cut at ${end}`, file, bytes: bytes.subarray(0, end), cut: true }
  }
  const random = makeRandom(FIRST_SEED)
  const names = [...files.keys()]
  for (let i = 0; i < flips; i++) {
    const file = names[random.integer(names.length)]!
    const bit = random.integer(8 * files.get(file)!.length)
    yield { what: `${file} bit ${bit}`, file, bytes: flipped(files.get(file)!, bit), cut: false }
  }
}

function put(folder: string, file: string, bytes: Buffer): void {
  mkdirSync(dirname(join(folder, file)), { recursive: true })
  writeFileSync(join(folder, file), bytes)
}

interface Known {
  files: ReadonlyMap<string, Buffer>
  limits: Limits
  whole: readonly MeasuredEvent[]
}

async function readDamaged(
  folder: string,
  damage: Damage,
  { files, limits, whole }: Known,
): Promise<readonly Problem[]> {
  put(folder, damage.file, damage.bytes)
  try {
    const now = new Map([...files, [damage.file, damage.bytes]])
    const { events, problems } = await readWhole(folder, now, limits)
    if (damage.cut && damage.file.endsWith('.csv') && damage.file !== 'test-log.csv')
      eventsStand(events, whole)
    return problems
  } finally {
    put(folder, damage.file, files.get(damage.file)!)
  }
}

/** Everything of the job up to what rules would judge. */
async function readWhole(
  folder: string,
  files: ReadonlyMap<string, Buffer>,
  limits: Limits,
): Promise<{ events: MeasuredEvent[]; problems: readonly Problem[] }> {
  const { job, log, warnings, files: paths } = await readJob(folder)
  const events: MeasuredEvent[] = []
  const problems: Problem[] = [...warnings]
  for (const entry of job.captures) {
    const capture = await readCapture(paths.get(entry.file)!, entry)
    if (files.has(entry.file) && entry.channels.every((c) => c.scale === 1 && c.unit !== 'mV'))
      compareCapture(capture, files.get(entry.file)!)
    problems.push(...capture.warnings)
    events.push(
      ...measureEvents(findEvents(capture, job.engine), { stage: entry.stage, engine: job.engine, limits }),
    )
  }
  const { problems: ofLog } = readTests({ log, traces: new Map(), job, limits })
  problems.push(...ofLog)
  for (const event of events) figuresAreFinite(event)
  if (problems.some((p) => p.severity === 'refuse')) throw new JobError(problems)
  return { events, problems }
}

function figuresAreFinite({ number, figures }: MeasuredEvent): void {
  for (const [name, figure] of Object.entries(figures)) {
    if (figure.ok && !(Number.isFinite(figure.value) && Number.isFinite(figure.u) && figure.u >= 0))
      throw new Finding(`event ${number}: ${name} ${figure.value} ± ${figure.u}`)
  }
}

/** Compared figures, and how many standard uncertainties of both together they may lie apart. */
const COMPARED = ['firingKv', 'burnMs', 'midKv', 'lateKv'] as const
const APART = 4
/** Breakdowns this close are one and the same, s. */
const SAME_S = 100e-6

/** A complete event of a cut capture is one of the whole's, of the same cylinder, with the same figures. */
function eventsStand(events: readonly MeasuredEvent[], whole: readonly MeasuredEvent[]): void {
  for (const event of events.filter((e) => !e.flags.includes('partial'))) {
    const same = whole.find((w) => Math.abs(w.breakdownS - event.breakdownS) < SAME_S)
    if (!same) throw new Finding(`an event at ${event.breakdownS} s that the whole does not have`)
    if (event.cylinder !== undefined && same.cylinder !== undefined && event.cylinder !== same.cylinder) {
      throw new Finding(
        `the event at ${event.breakdownS} s went from cylinder ${same.cylinder} to ${event.cylinder}`,
      )
    }
    for (const name of COMPARED) {
      const [a, b] = [event.figures[name], same.figures[name]]
      if (a.ok && b.ok && Math.abs(a.value - b.value) > APART * Math.hypot(a.u, b.u))
        throw new Finding(`${name} at ${event.breakdownS} s went from ${b.value} to ${a.value}`)
    }
  }
}
