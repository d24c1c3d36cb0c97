import { readFileSync } from 'node:fs'
import { availableParallelism, totalmem } from 'node:os'
import { dirname, join } from 'node:path'

/** What this process may use of the machine. */
export interface MachineLimits {
  cpus: number
  memoryBytes: number
}

/** Text of a file of the system, undefined where it has none. */
export type ReadSystem = (path: string) => string | undefined

const CGROUPS = '/sys/fs/cgroup'

/**
 * Processors and memory this process may use: the machine's own, held down by control groups (versions 1 and 2), which
 * containers and batch schedulers set. Node 20 sees the processors a process is bound to, but no quota of time.
 *
 * @source cpu.max, memory.max: Linux Documentation/admin-guide/cgroup-v2.rst; cfs_quota_us, limit_in_bytes: cgroup-v1
 */
export function machineLimits(read: ReadSystem = readSystem): MachineLimits {
  const groups = controlGroups(read)
  const quotas = groups.flatMap((group) => cpuQuota(group, read) ?? [])
  const memories = groups.flatMap((group) => memoryLimit(group, read) ?? [])
  return {
    cpus: Math.max(1, Math.floor(Math.min(availableParallelism(), ...quotas))),
    memoryBytes: Math.min(totalmem(), ...memories),
  }
}

function readSystem(path: string): string | undefined {
  try {
    return readFileSync(path, 'utf8')
  } catch {
    return undefined // no such control group here, or no control groups at all
  }
}

/** Folders of the groups this process is in and of those around them: a limit on any of them binds. */
function controlGroups(read: ReadSystem): string[] {
  const own = (read('/proc/self/cgroup') ?? '')
    .split('\n')
    .filter(Boolean)
    .flatMap((line) => {
      const [, controllers = '', path = '/'] = line.split(':')
      const roots = controllers === '' ? [CGROUPS] : controllers.split(',').map((name) => join(CGROUPS, name))
      return roots.flatMap((root) => upwards(path).map((at) => join(root, at)))
    })
  return [...new Set(own)]
}

/** '/a/b' -> '/a/b', '/a', '/'. */
const upwards = (path: string): string[] =>
  path === '/' || path === '.' ? ['/'] : [path, ...upwards(dirname(path))]

function cpuQuota(group: string, read: ReadSystem): number | undefined {
  const [quota, period] = (read(join(group, 'cpu.max')) ?? '').trim().split(/\s+/)
  if (period !== undefined) return quota === 'max' ? undefined : Number(quota) / Number(period)
  const quotaUs = Number(read(join(group, 'cpu.cfs_quota_us')) ?? -1)
  return quotaUs > 0 ? quotaUs / Number(read(join(group, 'cpu.cfs_period_us')) ?? 100_000) : undefined
}

function memoryLimit(group: string, read: ReadSystem): number | undefined {
  const text = (read(join(group, 'memory.max')) ?? read(join(group, 'memory.limit_in_bytes')) ?? '').trim()
  return /^\d+$/.test(text) ? Number(text) : undefined
}
