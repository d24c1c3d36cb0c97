import { spawn } from 'node:child_process'
import { cpSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { createInterface } from 'node:readline'

/** What a stretch of a batch took: jobs that ended in it, and the memory of the whole process at its end. */
interface Stretch {
  jobs: number
  wallS: number
  /** Processor time of the process until then, s. */
  cpuS: number
  rssMib: number
}

export interface LongBatch {
  workers: number
  jobs: number
  wallS: number
  cpuS: number
  /** Time that its threads were ready to run and other programs had the processors, s. */
  waitedS: number
  stretches: readonly Stretch[]
}

/** Processors that the threads kept busy or waited for on average: what they would keep busy on a machine of their own. */
export const processorsWanted = ({ cpuS, waitedS, wallS }: LongBatch): number => (cpuS + waitedS) / wallS

const STRETCHES = 5
/** Length of a clock tick of /proc, s; the same on every Linux (proc(5): sysconf(_SC_CLK_TCK)). */
const TICK_S = 0.01

/** Copies of a job under work orders of their own, all of one length: larger folders are begun first, and lines come in the order given. */
export function copiesOf(folder: string, count: number, into: string): string[] {
  return Array.from({ length: count }, (_, i) => {
    const workOrder = `L-${String(i + 1).padStart(5, '0')}`
    const copy = join(into, workOrder)
    cpSync(folder, copy, { recursive: true })
    const yaml = readFileSync(join(copy, 'job.yaml'), 'utf8')
    writeFileSync(join(copy, 'job.yaml'), yaml.replace(/^work_order: .*$/m, `work_order: ${workOrder}`))
    return copy
  })
}

/**
 * Reports folders in one call and follows it from outside: when each line of a job comes, and the process's own figures in
 * /proc then. Linux alone.
 */
export async function followBatch(
  command: readonly string[],
  workers: number,
  count: number,
): Promise<LongBatch> {
  const start = performance.now()
  const child = spawn(process.execPath, [...command, '--jobs', String(workers)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const stretches: Stretch[] = []
  let [ended, last, cpuS, waitedS] = [0, start, 0, 0]
  for await (const line of createInterface({ input: child.stdout })) {
    if (!line.includes('"state":"reported"')) continue
    ended++
    cpuS = cpuOf(child.pid!) ?? cpuS
    waitedS = Math.max(waitedS, waitedOf(child.pid!))
    if (ended % Math.ceil(count / STRETCHES) !== 0 && ended !== count) continue
    const now = performance.now()
    stretches.push({ jobs: ended, wallS: (now - last) / 1000, cpuS, rssMib: rssOf(child.pid!) })
    last = now
  }
  if (ended !== count) throw new Error(`${ended} of ${count} jobs reported`)
  return { workers, jobs: count, wallS: (last - start) / 1000, cpuS, waitedS, stretches }
}

/** Processor time of a process with all its threads, s. */
function cpuOf(pid: number): number | undefined {
  const stat = readFileSync(`/proc/${pid}/stat`, 'utf8')
  const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ')
  return (Number(fields[11]) + Number(fields[12])) * TICK_S
}

/** Time that the threads of a process waited for a processor, s: the second figure of schedstat (Linux, sched-stats.rst). */
function waitedOf(pid: number): number {
  const of = (task: string): number => {
    try {
      return Number(readFileSync(`/proc/${pid}/task/${task}/schedstat`, 'utf8').split(' ')[1]) / 1e9
    } catch {
      return 0 // the thread ended meanwhile, or this system does not tell
    }
  }
  return readdirSync(`/proc/${pid}/task`).reduce((sum, task) => sum + of(task), 0)
}

const rssOf = (pid: number): number =>
  Number(/^VmRSS:\s+(\d+)/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) / 1024

/** One line a batch, and one a stretch of it. */
export function sayLongBatch(batch: LongBatch): string {
  const { workers, jobs, wallS, cpuS, stretches } = batch
  const head = `${jobs} jobs, ${workers} worker${workers > 1 ? 's' : ''}: ${wallS.toFixed(0)} s, ${(cpuS / wallS).toFixed(2)} processors busy, ${processorsWanted(batch).toFixed(2)} busy or waited for, ${((1000 * cpuS) / jobs).toFixed(0)} ms of processor time a job`
  const lines = stretches.map(({ jobs: until, wallS: took, cpuS: used, rssMib }, i) => {
    const { jobs: from = 0, cpuS: before = 0 } = stretches[i - 1] ?? {}
    const ms = (seconds: number): string => ((1000 * seconds) / (until - from)).toFixed(0)
    return `    up to job ${until}: ${ms(took)} ms a job, ${ms(used - before)} ms of processor time, ${rssMib.toFixed(0)} MiB`
  })
  return [head, ...lines].join('\n')
}
