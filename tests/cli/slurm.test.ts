import { spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { hostname, tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { copyDemoJob, MAIN } from '../support/demo-job.ts'

const root = fileURLToPath(new URL('../..', import.meta.url))
const TOOLS = ['munged', 'slurmctld', 'slurmd', 'sbatch', 'scontrol']
const found = (tool: string) => spawnSync('sh', ['-c', `command -v ${tool}`]).status === 0
const usable = process.platform === 'linux' && process.getuid?.() === 0 && TOOLS.every(found)

/**
 * One node that is also the controller, in a folder of its own, on ports that nothing else uses by custom. A requeued task
 * waits until the credentials of its first run have expired, so these expire soon.
 */
const config = (at: string) => `ClusterName=one
SlurmctldHost=localhost
SlurmUser=root
SlurmdUser=root
AuthType=auth/munge
AuthInfo=socket=${at}/munge.socket,cred_expire=5
StateSaveLocation=${at}/state
SlurmdSpoolDir=${at}/spool
SlurmctldLogFile=${at}/slurmctld.log
SlurmdLogFile=${at}/slurmd.log
SlurmctldPidFile=${at}/slurmctld.pid
SlurmdPidFile=${at}/slurmd.pid
SlurmctldPort=26917
SlurmdPort=26918
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU
JobAcctGatherType=jobacct_gather/none
MpiDefault=none
NodeName=localhost CPUs=4 Boards=1 State=UNKNOWN
PartitionName=main Nodes=ALL Default=YES MaxTime=INFINITE State=UP
SlurmdParameters=config_overrides
`

/** The array script of DEVELOPERS.md, as a reader would take it. */
const script = () =>
  /```sh\n(#!\/bin\/sh\n#SBATCH[\s\S]*?)```/.exec(readFileSync(join(root, 'DEVELOPERS.md'), 'utf8'))![1]!

interface Cluster {
  at: string
  run: (command: string, ...args: string[]) => string
  stop: () => Promise<void>
}

/** Starts it in a folder of its own, with so many copies of a demo job in inputs/ and their list in jobs.jsonl. */
function startCluster(jobs: readonly string[]): Cluster {
  const at = mkdtempSync(join(tmpdir(), 'burnline-slurm-'))
  const env = { ...process.env, SLURM_CONF: join(at, 'slurm.conf'), BURNLINE: `${process.execPath} ${MAIN}` }
  const run = (command: string, ...args: string[]) => {
    const done = spawnSync(command, args, { cwd: at, env, encoding: 'utf8' })
    if (done.status !== 0) throw new Error(`${command} on ${hostname()}: ${done.stderr}`)
    return done.stdout
  }
  for (const folder of ['state', 'spool', 'inputs']) mkdirSync(join(at, folder))
  writeFileSync(join(at, 'slurm.conf'), config(at))
  writeFileSync(join(at, 'key'), Buffer.alloc(128, 7), { mode: 0o400 })
  for (const job of jobs) copyDemoJob(join(at, 'inputs', job), job)
  run(
    'munged',
    '--force',
    `--key-file=${at}/key`,
    `--socket=${at}/munge.socket`,
    `--pid-file=${at}/munge.pid`,
    `--log-file=${at}/munge.log`,
    `--seed-file=${at}/munge.seed`,
  )
  run('slurmctld')
  run('slurmd', '-N', 'localhost')
  writeFileSync(join(at, 'jobs.jsonl'), run(process.execPath, MAIN, 'list', 'inputs', '--json'))
  writeFileSync(join(at, 'burnline.sbatch'), script())
  const stop = async () => {
    for (const pid of ['slurmd.pid', 'slurmctld.pid', 'munge.pid'])
      if (existsSync(join(at, pid))) process.kill(Number(readFileSync(join(at, pid), 'utf8')), 'SIGTERM')
    await wait(1000)
    rmSync(at, { recursive: true, force: true, maxRetries: 5 })
  }
  return { at, run, stop }
}

const logsOf = (at: string) =>
  readdirSync(at)
    .filter((name) => /^slurm-\d+_\d+\.out$/.test(name))
    .map((log) => readFileSync(join(at, log), 'utf8'))
const outputsOf = (at: string) =>
  existsSync(join(at, 'outputs'))
    ? readdirSync(join(at, 'outputs'))
        .filter((name) => !name.startsWith('.'))
        .sort()
    : []
const NOT_HERE = 'skipped: slurm-wlm is not installed, or this is not root on Linux'

test('the Slurm array script of the guide reports every job once', { timeout: 240_000 }, async ({ skip }) => {
  if (!usable) return skip(NOT_HERE)
  const jobs = Array.from({ length: 6 }, (_, i) => `S-${i + 1}`)
  const { at, run, stop } = startCluster(jobs)
  try {
    run('sbatch', '--wait', '--mem=0', 'burnline.sbatch')
    expect(outputsOf(at)).toEqual(jobs)
    const logs = logsOf(at)
    expect(logs).toHaveLength(4)
    expect(logs.flatMap((log) => [...log.matchAll(/^(S-\d) {2}/gm)].map((m) => m[1])).sort()).toEqual(jobs)
  } finally {
    await stop()
  }
})

test(
  'a task told to end comes back by itself and goes on where it stood',
  { timeout: 240_000 },
  async ({ skip }) => {
    if (!usable) return skip(NOT_HERE)
    const jobs = Array.from({ length: 8 }, (_, i) => `S-${i + 1}`)
    const { at, run, stop } = startCluster(jobs)
    try {
      const id = `${run('sbatch', '--parsable', '--mem=0', '--array=1', '--cpus-per-task=1', '--open-mode=append', 'burnline.sbatch').trim()}_1`
      while (outputsOf(at).length === 0) await wait(50)
      run('scancel', '--batch', '--signal=TERM', id)
      while (!/Restarts=1/.test(run('scontrol', 'show', 'job', id))) await wait(200)
      const done = outputsOf(at)
      expect(done.length).toBeLessThan(jobs.length)
      while (!/JobState=COMPLETED/.test(run('scontrol', 'show', 'job', id))) await wait(500)
      expect(outputsOf(at)).toEqual(jobs)
      const counts = logsOf(at).flatMap((log) => [...log.matchAll(/^8 jobs: .*$/gm)].map(String))
      expect(counts).toEqual([
        `8 jobs: ${done.length} reported (0 up to date), 0 invalid, ${jobs.length - done.length} skipped`,
        `8 jobs: 8 reported (${done.length} up to date), 0 invalid, 0 skipped`,
      ])
    } finally {
      await stop()
    }
  },
)
