import { hostname } from 'node:os'

/** Name of this machine, in signs that file names take. */
export const HOST = hostname().replace(/[^A-Za-z0-9]+/g, '_')

/** Whether a process of a machine is known to be gone. Of another machine nobody here can tell. */
export const isGone = (host: string, pid: number): boolean => host === HOST && !isAlive(pid)

/** Whether a process runs on this machine. */
export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0)
    return true
  } catch (cause) {
    return (cause as NodeJS.ErrnoException).code === 'EPERM'
  }
}
