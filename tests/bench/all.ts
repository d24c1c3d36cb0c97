import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { availableParallelism, cpus, loadavg, tmpdir, totalmem } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { writeBenchJob } from './speed/bench-job.ts'
import { copyReported } from './speed/copies.ts'
import { copiesOf, followBatch, sayLongBatch, processorsWanted, type LongBatch } from './speed/long-batch.ts'
import { writeExportJob } from './speed/export-files.ts'
import { firstBytes, sayCommand, sayDecoding, sayDocument, sayReading } from './speed/parts-of-a-report.ts'
import { sayRow, speedUp, type Row } from './speed/row.ts'
import { nodeCommand, timed, type Taken } from './speed/timed.ts'
import { findYardstick } from './speed/yardstick.ts'

/**
 *   npm run bench                      everything, five runs each
 *   npm run bench -- --short           small data, one run each: whether it works, not how fast it is
 *   npm run bench -- --only cold,large
 *   npm run bench -- --only batch --count 200          fewer jobs than the 2 000 of the long batch
 *
 * Makes its data, times burnline and, where it is there, the yardstick on the same jobs in turn, and prints wall time
 * (median, least-most), CPU time, peak memory and ratios. Every burnline run is cold: a new process and an empty folder.
 * Then the parts that have goals of their own: decoding, charts and PDF in a warm process, and the short commands.
 */
const { values } = parseArgs({
  options: {
    short: { type: 'boolean', default: false },
    only: { type: 'string' },
    count: { type: 'string' },
  },
})
const RUNS = values.short ? 1 : 5
const parts = { cold, large, decode, exports, document, commands, many, rerun, batch }
const wanted = (values.only?.split(',') ?? Object.keys(parts)) as (keyof typeof parts)[]
for (const part of wanted)
  if (!(part in parts)) throw new Error(`no part ${part}; there are ${Object.keys(parts).join(', ')}`)

const MAIN = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url))
const demo = (name: string) => fileURLToPath(new URL(`../../inputs/${name}`, import.meta.url))
const DEMO = demo('third-cylinder-valve')
/** The longest of the demo jobs: eight cylinders before and after, twelve tests. */
const LONG_DEMO = demo('brake-hose-leak-v8')
/** Enough for a report with every chart. */
const FEW_ROWS = 250_000
const LARGE_ROWS = values.short ? 1_000_000 : 5_000_000
const scratch = mkdtempSync(join(tmpdir(), 'burnline-bench-'))
const yardstick = findYardstick()
const print = (line: string) => process.stdout.write(`${line}\n`)

print(
  `${cpus()[0]?.model ?? 'processor unknown'}, ${availableParallelism()} usable, ${Math.round(totalmem() / 2 ** 30)} GiB; Node ${process.version}; load before ${loadavg()[0]!.toFixed(1)}; ${RUNS} run${RUNS === 1 ? '' : 's'} each`,
)
if (!yardstick.ok) print(`yardstick not run: ${yardstick.why}`)
try {
  for (const part of wanted) await parts[part]()
} finally {
  rmSync(scratch, { recursive: true, force: true })
}

function cold(): void {
  print(sayRow(oneJob('one job of 500 000 rows, cold', { rows: 500_000, goal: 0.5 })))
  const folder = jobOf(FEW_ROWS)
  const own = Array.from({ length: RUNS }, () => report([folder]))
  print(
    sayRow({
      what: `the same of ${FEW_ROWS / 1000} 000 rows: what does not hang on the data`,
      own,
      peer: undefined,
    }),
  )
}

function large(): void {
  const row = oneJob('one job of 5 000 000 rows, cold', { rows: LARGE_ROWS, goal: 0.33 })
  const peak = Math.max(...row.own.map((run) => run.peakMib))
  print(
    `${sayRow(row)}\n  most memory of the whole report ${peak.toFixed(0)} MiB (goal 250 MB: ${peak * 2 ** 20 < 250e6 ? 'met' : 'not met'})`,
  )
}

function oneJob(what: string, { rows, goal }: { rows: number; goal: number }): Row {
  const folder = jobOf(rows)
  const both = inTurn(
    () => report([folder]),
    yardstick.ok ? (out) => timed(yardstick.report([folder, out])) : undefined,
  )
  return { what: values.short ? `${what} (short: ${rows})` : what, ...both, goal }
}

/** A job of one capture of so many rows, made once. */
function jobOf(rows: number): string {
  const folder = join(scratch, `job-${rows}`)
  if (!existsSync(folder)) writeBenchJob(folder, { workOrder: `R-${rows}`, rows, seed: 11 })
  return folder
}

function decode(): void {
  print(sayDecoding(jobOf(LARGE_ROWS), RUNS))
}

/** Long exports in a process each, read once, as a first look at a recorder's memory is. */
function exports(): void {
  for (const [way, megabytes, goalS] of [
    ['plain', 200, 10],
    ['hex', 100, 20],
    ['blocks', 100, 20],
    ['jumps', 100, 20],
  ] as const) {
    const folder = join(scratch, `export-${way}`)
    writeExportJob(folder, way, values.short ? 10 : megabytes)
    print(sayReading(way, { folder, goalS, report: () => report([folder]) }))
    rmSync(folder, { recursive: true })
  }
}

function document(): void {
  print(sayDocument(LONG_DEMO, values.short ? 3 : 12))
}

function commands(): void {
  const capture = firstBytes(join(jobOf(LARGE_ROWS), 'captures', 'idle-before.csv'), scratch, 50_000_000)
  print(
    sayCommand(values.short ? 'peek (short)' : 'peek into 50 MB', RUNS, {
      args: [MAIN, 'peek', capture],
      goalS: 1,
    }),
  )
  print(sayCommand('check of a demo job', RUNS, { args: [MAIN, 'check', DEMO], goalS: 0.5 }))
  print(sayCommand('prove', 1, { args: [MAIN, 'prove', '--out', join(scratch, 'proof.json')], goalS: 20 }))
}

/** 100 jobs of 250 000 rows; the yardstick, slower, has the first 20, and its time is scaled to as many. */
function many(): void {
  const count = values.short ? 8 : 100
  const peerCount = Math.min(count, 20)
  const folders = Array.from({ length: count }, (_, i) =>
    join(scratch, i < peerCount ? 'many' : 'more', `job-${i + 1}`),
  )
  folders.forEach((folder, i) =>
    writeBenchJob(folder, { workOrder: `M-${i + 1}`, rows: 250_000, seed: 100 + i }),
  )
  const scaled = (run: Taken): Taken => ({
    ...run,
    wallS: run.wallS * (count / peerCount),
    cpuS: run.cpuS * (count / peerCount),
  })
  const rows = [1, 2].map((workers): Row => {
    const peer = yardstick.ok
      ? (out: string) =>
          scaled(
            timed(
              yardstick.report([
                join(scratch, 'many'),
                out,
                '--many',
                ...(workers > 1 ? ['--pool', '2'] : []),
              ]),
            ),
          )
      : undefined
    const what = `${count} jobs of 250 000 rows, ${workers} worker${workers > 1 ? 's' : ''}${peerCount < count ? ` (yardstick: ${peerCount} of them, scaled)` : ''}`
    return {
      what,
      ...inTurn(() => report(folders, '--jobs', String(workers)), peer),
      ...(workers === 2 ? { goal: 0.5 } : {}),
    }
  })
  for (const row of rows) print(sayRow(row))
  const [one, two] = rows.map(({ own }) => own) as [readonly Taken[], readonly Taken[]]
  print(
    `  two workers against one: ${speedUp(rows[0]!, rows[1]!).toFixed(2)} times as fast (goal 1.8); one keeps ${busy(one)} processors busy, two ${busy(two)}`,
  )
}

/** 2 000 copies of a demo job, one worker and two: whether time and memory a job stay as they began. Each once. */
async function batch(): Promise<void> {
  const count = Number(values.count ?? (values.short ? 20 : 2000))
  const folders = copiesOf(DEMO, count, join(scratch, 'batch'))
  const runs: LongBatch[] = []
  for (const workers of [1, 2]) {
    const command = [MAIN, 'report', ...folders, '--json', '--out', freshFolder()]
    const run = await followBatch(command, workers, count)
    print(sayLongBatch(run))
    runs.push(run)
  }
  const [one, two] = runs as [LongBatch, LongBatch]
  print(
    `  two workers keep ${(two.cpuS / two.wallS).toFixed(2)} processors busy, or ${processorsWanted(two).toFixed(2)} with those they waited for while other programs ran (goal 1.9), with ${(100 * (two.cpuS / one.cpuS - 1)).toFixed(1)} % more processor time a job (goal at most 5 %)`,
  )
}

/** Processors busy on average: collecting garbage and compiling run beside a worker. */
function busy(runs: readonly Taken[]): string {
  return (
    runs.reduce((sum, run) => sum + run.cpuS, 0) / runs.reduce((sum, run) => sum + run.wallS, 0)
  ).toFixed(2)
}

/** 1 000 jobs that are up to date: copies of a demo job of 0.3 MB and of its output. */
function rerun(): void {
  const count = values.short ? 100 : 1000
  const [made, outRoot] = [join(scratch, 'rerun-first'), join(scratch, 'rerun-out')]
  timed(nodeCommand(MAIN, ['report', DEMO, '--out', made]))
  const [name] = readdirSync(made).filter((entry) => !entry.startsWith('.'))
  const folders = copyReported({ folder: DEMO, output: join(made, name!) }, count, {
    jobs: join(scratch, 'rerun'),
    outRoot,
  })
  const again = () => {
    const run = timed(nodeCommand(MAIN, ['report', ...folders, '--out', outRoot]))
    if (!run.stdout.includes(`${count} reported (${count} up to date)`))
      throw new Error(`not all up to date: ${run.stdout.slice(-200)}`)
    return run
  }
  const own = Array.from({ length: RUNS }, again)
  print(
    sayRow({
      what: `rerun of ${count} jobs that are up to date${count === 1000 ? ' (goal 3 s)' : ''}`,
      own,
      peer: undefined,
    }),
  )
}

/** Runs both in turn, so that what else the machine does falls on both. */
function inTurn(own: () => Taken, peer: ((out: string) => Taken) | undefined): Pick<Row, 'own' | 'peer'> {
  const [mine, theirs]: [Taken[], Taken[]] = [[], []]
  for (let run = 0; run < RUNS; run++) {
    mine.push(own())
    if (peer) theirs.push(peer(freshFolder()))
  }
  return { own: mine, peer: peer ? theirs : undefined }
}

/** Reports into an empty folder, and makes sure that every job was reported. */
function report(folders: readonly string[], ...options: string[]): Taken {
  const out = freshFolder()
  const run = timed(nodeCommand(MAIN, ['report', ...folders, '--out', out, ...options]))
  const reported = readdirSync(out).filter((name) => !name.startsWith('.')).length
  if (reported !== folders.length) throw new Error(`${reported} of ${folders.length} reported`)
  rmSync(out, { recursive: true })
  return run
}

function freshFolder(): string {
  const out = join(scratch, 'out')
  rmSync(out, { recursive: true, force: true })
  mkdirSync(out)
  return out
}
