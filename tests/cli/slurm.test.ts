import { spawnSync } from 'node:child_process'
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { hostname, tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'

const root = fileURLToPath(new URL('../..', import.meta.url))
const main = join(root, 'dist', 'cli', 'main.js')
const TOOLS = ['munged', 'slurmctld', 'slurmd', 'sbatch', 'scontrol']
const found = (tool: string) => spawnSync('sh', ['-c', `command -v ${tool}`]).status === 0
const usable = process.platform === 'linux' && process.getuid?.() === 0 && TOOLS.every(found)

/** One node that is also the controller, in a folder of its own, on ports that nothing else uses by custom. */
const config = (at: string) => `ClusterName=one
SlurmctldHost=localhost
SlurmUser=root
SlurmdUser=root
AuthType=auth/munge
AuthInfo=socket=${at}/munge.socket
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
const script = () => /```sh\n(#!\/bin\/sh\n#SBATCH[\s\S]*?)```/.exec(readFileSync(join(root, 'DEVELOPERS.md'), 'utf8'))![1]!

test('the Slurm array script of the guide reports every job once', { timeout: 240_000 }, async ({ skip }) => {
  if (!usable) return skip('skipped: slurm-wlm is not installed, or this is not root on Linux')
  const at = mkdtempSync(join(tmpdir(), 'burnline-slurm-'))
  const env = { ...process.env, SLURM_CONF: join(at, 'slurm.conf'), BURNLINE: `${process.execPath} ${main}` }
  const run = (command: string, ...args: string[]) => {
    const done = spawnSync(command, args, { cwd: at, env, encoding: 'utf8' })
    if (done.status !== 0) throw new Error(`${command} on ${hostname()}: ${done.stderr}`)
    return done.stdout
  }
  for (const folder of ['state', 'spool', 'inputs']) mkdirSync(join(at, folder))
  writeFileSync(join(at, 'slurm.conf'), config(at))
  writeFileSync(join(at, 'key'), Buffer.alloc(128, 7), { mode: 0o400 })
  const jobs = Array.from({ length: 6 }, (_, i) => `S-${i + 1}`)
  for (const job of jobs) {
    cpSync(join(root, 'inputs', 'third-cylinder-valve'), join(at, 'inputs', job), { recursive: true })
    const path = join(at, 'inputs', job, 'job.yaml')
    writeFileSync(path, readFileSync(path, 'utf8').replace(/^work_order: .*$/m, `work_order: "${job}"`))
  }
  const pids: string[] = []
  try {
    run('munged', '--force', `--key-file=${at}/key`, `--socket=${at}/munge.socket`, `--pid-file=${at}/munge.pid`, `--log-file=${at}/munge.log`, `--seed-file=${at}/munge.seed`)
    run('slurmctld')
    run('slurmd', '-N', 'localhost')
    pids.push('munge.pid', 'slurmctld.pid', 'slurmd.pid')
    writeFileSync(join(at, 'jobs.jsonl'), run(process.execPath, main, 'list', 'inputs', '--json'))
    writeFileSync(join(at, 'burnline.sbatch'), script())
    run('sbatch', '--wait', '--mem=0', 'burnline.sbatch')
    expect(readdirSync(join(at, 'outputs')).filter((name) => !name.startsWith('.')).sort()).toEqual(jobs)
    const logs = readdirSync(at).filter((name) => /^slurm-\d+_\d+\.out$/.test(name))
    expect(logs).toHaveLength(4)
    const reported = logs.flatMap((log) => [...readFileSync(join(at, log), 'utf8').matchAll(/^(S-\d) {2}/gm)].map((m) => m[1]))
    expect(reported.sort()).toEqual(jobs)
  } finally {
    for (const pid of pids.reverse()) if (existsSync(join(at, pid))) process.kill(Number(readFileSync(join(at, pid), 'utf8')), 'SIGTERM')
    await wait(1000)
    rmSync(at, { recursive: true, force: true, maxRetries: 5 })
  }
})
