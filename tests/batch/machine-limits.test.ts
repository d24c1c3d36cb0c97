import { availableParallelism, totalmem } from 'node:os'
import { describe, expect, test } from 'vitest'
import { machineLimits } from '../../src/batch/machine-limits.ts'

const files = (given: Record<string, string>) => (path: string) => given[path]

/** File names and forms: Linux Documentation/admin-guide/cgroup-v2.rst ("cpu.max", "memory.max") and cgroup-v1/. */
describe('limits of control groups', () => {
  test('none: the machine itself', () => {
    expect(machineLimits(files({}))).toEqual({ cpus: availableParallelism(), memoryBytes: totalmem() })
  })

  test('version 2: the tightest of the group and those around it binds', () => {
    const read = files({
      '/proc/self/cgroup': '0::/pods/one\n',
      '/sys/fs/cgroup/pods/one/cpu.max': 'max 100000\n',
      '/sys/fs/cgroup/pods/cpu.max': '100000 100000\n',
      '/sys/fs/cgroup/pods/one/memory.max': '536870912\n',
      '/sys/fs/cgroup/pods/memory.max': 'max\n',
    })
    expect(machineLimits(read)).toEqual({ cpus: 1, memoryBytes: 512 * 2 ** 20 })
  })

  test('version 2 inside a container, where the group is seen as the root', () => {
    const read = files({
      '/proc/self/cgroup': '0::/\n',
      '/sys/fs/cgroup/cpu.max': '50000 100000\n',
      '/sys/fs/cgroup/memory.max': '1000000\n',
    })
    expect(machineLimits(read)).toEqual({ cpus: 1, memoryBytes: 1_000_000 })
  })

  test('version 1: quota and period, and a limit so large that it means none', () => {
    const read = files({
      '/proc/self/cgroup': '4:memory:/job\n1:cpu,cpuacct:/job\n0::/\n',
      '/sys/fs/cgroup/cpu/job/cpu.cfs_quota_us': '150000\n',
      '/sys/fs/cgroup/cpu/job/cpu.cfs_period_us': '100000\n',
      '/sys/fs/cgroup/memory/job/memory.limit_in_bytes': '9223372036854771712\n',
    })
    expect(machineLimits(read)).toEqual({ cpus: 1, memoryBytes: totalmem() })
  })
})
