import { appendFileSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { parseArgs } from 'node:util'
import { makeRandom } from '../../src/maths/random.ts'
import { smallJob } from './fuzz/small-job.ts'
import { MOMENTS, runAndKill, undisturbed, type Moment } from './kills/run-and-kill.ts'
import { standingOutput, type Standing } from './kills/standing-output.ts'

/**
 *   npm run kills                      500 kills of the report command
 *   npm run kills -- --kills 50 --seed 3
 *
 * The command reports one job, and in every fourth run two in worker threads. Before each run the inputs change, so that
 * there is work to do; then it is killed with SIGKILL: at any moment, in its first milliseconds, while it writes, or as
 * soon as the old output is seen to move. Runs that end before their kill do not count as kills.
 *
 * After each kill every output must be the old one or the new one, each file of it as its own manifest says, nothing
 * missing and nothing beside it; where the kill fell between the two renames, the old one must be whole where the next
 * run finds it. After every 25th kill, and every kill between the renames, an undisturbed run must converge: the
 * outputs of the inputs as they are, and nothing left beside them. Exit code 1 when anything is otherwise.
 */
const { values } = parseArgs({
  options: { kills: { type: 'string', default: '500' }, seed: { type: 'string', default: '1' } },
})
const wanted = Number(values.kills)
const random = makeRandom(Number(values.seed))
const scratch = mkdtempSync(join(tmpdir(), 'burnline-kills-'))
const out = join(scratch, 'out')
const jobs = ['K-1', 'K-2'].map(writeJob)
const faults: string[] = []
const seen = Object.fromEntries(
  MOMENTS.map((m) => [m, { kills: 0, old: 0, fresh: 0, 'moved away': 0, ended: 0 }]),
) as Record<Moment, Record<Standing['is'] | 'kills' | 'ended', number>>

const times = [
  await undisturbed([jobs[0]!.folder], out),
  await undisturbed(
    jobs.map((job) => job.folder),
    out,
  ),
]
let converged = 0
const startMs = performance.now()
for (let run = 1, kills = 0; kills < wanted; run++) {
  const both = run % 4 === 0
  const moment = MOMENTS[Math.floor(run / 4) % MOMENTS.length]!
  const called = both ? jobs : [jobs[run % 2]!]
  for (const job of called) job.change(run)
  const killed = await runAndKill(
    called.map((job) => job.folder),
    out,
    { moment, times: times[both ? 1 : 0]!, random },
  )
  if (killed && ++kills % 25 === 0) process.stderr.write(`${kills} kills, faults ${faults.length}\n`)
  seen[moment][killed ? 'kills' : 'ended']++
  const found = jobs.map((job) => standingOutput(out, job))
  faults.push(...found.flatMap((f) => f.faults.map((fault) => `run ${run}, ${moment}: ${fault}`)))
  if (killed)
    found
      .filter((_, i) => called.includes(jobs[i]!))
      .forEach(({ is }) => {
        seen[moment][is]++
      })
  if ((killed && kills % 25 === 0) || found.some(({ is }) => is === 'moved away'))
    await mustConverge(`run ${run}`)
}
await mustConverge('the last run')
say()
rmSync(scratch, { recursive: true, force: true })
process.exitCode = faults.length > 0 ? 1 : 0

interface KillJob {
  folder: string
  workOrder: string
  logs: string[]
  change: (run: number) => void
}

/** A job of two cylinders and 0.09 s; changing it adds a line to its log. */
function writeJob(workOrder: string): KillJob {
  const folder = join(scratch, workOrder)
  let log = ''
  const logs: string[] = []
  for (const [file, bytes] of smallJob()) {
    mkdirSync(dirname(join(folder, file)), { recursive: true })
    writeFileSync(
      join(folder, file),
      file === 'job.yaml' ? bytes.toString('utf8').replace('S-1', workOrder) : bytes,
    )
    if (file === 'test-log.csv') {
      log = bytes.toString('utf8')
      logs.push(log)
    }
  }
  const change = (run: number) => {
    const line = `2026-03-05T10:00,note,,,,,,run ${run}\n`
    appendFileSync(join(folder, 'test-log.csv'), line)
    log += line
    logs.push(log)
  }
  return { folder, workOrder, logs, change }
}

/** An undisturbed run: every output is that of the inputs as they are, and nothing but the kept measurements is beside them. */
async function mustConverge(after: string): Promise<void> {
  await undisturbed(
    jobs.map((job) => job.folder),
    out,
  )
  converged++
  for (const job of jobs) {
    const { is, faults: wrong } = standingOutput(out, job)
    if (is !== 'fresh') wrong.push(`${job.workOrder} did not converge: ${is}`)
    faults.push(...wrong.map((fault) => `after ${after}: ${fault}`))
  }
  const beside = readdirSync(out).filter(
    (name) => name !== '.burnline-cache' && !jobs.some((job) => job.workOrder === name),
  )
  if (beside.length > 0) faults.push(`after ${after}: left beside the outputs: ${beside.join(', ')}`)
}

function say(): void {
  const print = (line: string) => process.stdout.write(`${line}\n`)
  print(
    `a run takes ${times.map(({ wholeMs }) => Math.round(wholeMs)).join(' ms, with two jobs ')} ms; ${Math.round((performance.now() - startMs) / 1000)} s for all`,
  )
  for (const moment of MOMENTS) {
    const { kills, old, fresh, ended } = seen[moment]
    print(
      `killed ${moment}: ${kills} kills; outputs: old stands ${old}, new stands ${fresh}, old whole between the renames ${seen[moment]['moved away']}; ended before the kill, not counted: ${ended}`,
    )
  }
  const total = MOMENTS.reduce((sum, moment) => sum + seen[moment].kills, 0)
  print(
    `${total} kills in all, ${converged} undisturbed runs between them that converged or are named here; faults ${faults.length}`,
  )
  for (const fault of faults) print(`  ${fault}`)
}
