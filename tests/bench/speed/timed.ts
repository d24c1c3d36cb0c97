import { spawnSync } from 'node:child_process'
import { readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/** What one run took. Memory is the most the largest process of it held at once. */
export interface Taken {
  wallS: number
  cpuS: number
  peakMib: number
}

/** A command line, and how its own use of the machine is found out. */
export interface Command {
  file: string
  args: readonly string[]
}

const USAGE_FILE = 'BURNLINE_BENCH_USAGE'

/**
 * Writes a Node process's use of the machine, all its threads, when it ends. The most memory is the system's own mark where
 * there is one: the figure of getrusage begins, over fork and exec, with what the process that started it held.
 */
const ON_EXIT = `data:text/javascript,${encodeURIComponent(`
  import { existsSync, readFileSync, writeFileSync } from 'node:fs'
  import { isMainThread } from 'node:worker_threads'
  if (isMainThread) process.on('exit', () => {
    const u = process.resourceUsage()
    const mark = existsSync('/proc/self/status') ? /^VmHWM:\\s+(\\d+) kB/m.exec(readFileSync('/proc/self/status', 'utf8'))?.[1] : undefined
    writeFileSync(process.env.${USAGE_FILE}, JSON.stringify({ cpuS: (u.userCPUTime + u.systemCPUTime) / 1e6, peakMib: Number(mark ?? u.maxRSS) / 1024 }))
  })`)}`

/** Runs a command, writes what it and its children used, and exits as it did. */
const ON_WAIT = `
import json, os, resource, subprocess, sys
code = subprocess.call(sys.argv[1:])
u = resource.getrusage(resource.RUSAGE_CHILDREN)
json.dump({"cpuS": u.ru_utime + u.ru_stime, "peakMib": u.ru_maxrss / 1024}, open(os.environ["${USAGE_FILE}"], "w"))
sys.exit(code)`

/**
 * A Python that can import these, by the path of the program itself: a script that stands in its place takes as long as
 * a short command, and what it starts would be counted.
 */
export function findPython(modules: string): string | undefined {
  const asked = ['python3', '/usr/bin/python3'].map((file) =>
    spawnSync(file, ['-c', `import sys, ${modules}; print(sys.executable)`], { encoding: 'utf8' }),
  )
  return asked.find(({ status }) => status === 0)?.stdout.trim()
}

/** One that can wait for a command and say what it used; undefined where there is none. */
const python = findPython('resource')

/**
 * A Node script, and what it used: where there is a python3 found out as for the yardstick's; else the script is told to
 * say so itself, for which each of its threads loads something more.
 */
export const nodeCommand = (script: string, args: readonly string[]): Command =>
  python === undefined
    ? { file: process.execPath, args: ['--import', ON_EXIT, script, ...args] }
    : waitedFor(python, [process.execPath, script, ...args])

/** A Python script with its child processes; of these, the largest counts for memory. */
export const pythonCommand = (file: string, args: readonly string[]): Command =>
  waitedFor(file, [file, ...args])

const waitedFor = (waiting: string, command: readonly string[]): Command => ({
  file: waiting,
  args: ['-c', ON_WAIT, ...command],
})

/** Runs a command once. @throws Error with its last words when it fails */
export function timed({ file, args }: Command): Taken & { stdout: string } {
  const usage = join(tmpdir(), `burnline-usage-${process.pid}.json`)
  const startMs = performance.now()
  const run = spawnSync(file, args, {
    encoding: 'utf8',
    env: { ...process.env, [USAGE_FILE]: usage },
    maxBuffer: 2 ** 28,
  })
  const wallS = (performance.now() - startMs) / 1000
  if (run.status !== 0)
    throw new Error(`${args.slice(-4).join(' ')}: exit ${run.status}\n${run.stderr.slice(-2000)}`)
  const used = JSON.parse(readFileSync(usage, 'utf8')) as Omit<Taken, 'wallS'>
  rmSync(usage)
  return { wallS, ...used, stdout: run.stdout }
}
