import { spawn, type ChildProcess } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdirSync, watch } from 'node:fs'
import { setTimeout as wait } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import type { Random } from '../../../src/maths/random.ts'

/** When a run is killed. */
export const MOMENTS = [
  'at any moment',
  'in its first milliseconds',
  'while it writes',
  'as the old output moves',
] as const
export type Moment = (typeof MOMENTS)[number]

/** How long a run takes, and the part of it that is left when it begins to write. */
export interface Times {
  wholeMs: number
  writingMs: number
}

const MAIN = fileURLToPath(new URL('../../../dist/cli/main.js', import.meta.url))
const FIRST_MS = 60
/** Kills are spread a little beyond the usual end, since no run takes as long as the last. */
const BEYOND = 1.1

const start = (folders: readonly string[], out: string): ChildProcess =>
  spawn(process.execPath, [MAIN, 'report', ...folders, '--out', out], { stdio: 'ignore' })

/** Tells once, as soon as something of the output folder changes whose name is sought. */
function onceSeen(
  out: string,
  sought: (name: string) => boolean,
): { seen: Promise<void>; close: () => void } {
  if (!existsSync(out)) mkdirSync(out, { recursive: true })
  const watcher = watch(out)
  const seen = new Promise<void>((settle) => {
    watcher.on('change', (_, name) => {
      if (sought(String(name))) settle()
    })
  })
  return { seen, close: () => watcher.close() }
}

const isAside = (name: string): boolean => name.startsWith('.burnline-tmp-')

/** Runs the command to its end. @throws Error where it fails */
export async function undisturbed(folders: readonly string[], out: string): Promise<Times> {
  const { seen, close } = onceSeen(out, isAside)
  const startMs = performance.now()
  let writingFromMs = startMs
  void seen.then(() => {
    writingFromMs = performance.now()
  })
  const [code] = (await once(start(folders, out), 'exit')) as [number]
  close()
  if (code !== 0) throw new Error(`the undisturbed run ended with ${code}`)
  const endMs = performance.now()
  return { wholeMs: endMs - startMs, writingMs: endMs - writingFromMs }
}

/** Runs the command and kills it. @returns false where it ended before */
export async function runAndKill(
  folders: readonly string[],
  out: string,
  { moment, times, random }: { moment: Moment; times: Times; random: Random },
): Promise<boolean> {
  const share = random.uniform()
  const sought = moment === 'while it writes' ? isAside : (name: string) => !name.startsWith('.')
  const { seen, close } = onceSeen(out, sought)
  const child = start(folders, out)
  const end = once(child, 'exit') as Promise<[number | null, string | null]>
  const due: Record<Moment, () => Promise<unknown>> = {
    'at any moment': () => wait(share * BEYOND * times.wholeMs),
    'in its first milliseconds': () => wait(share * FIRST_MS),
    'while it writes': () => seen.then(() => wait(share * BEYOND * times.writingMs)),
    'as the old output moves': () => seen,
  }
  await Promise.race([end, due[moment]()])
  child.kill('SIGKILL')
  const [, signal] = await end
  close()
  return signal === 'SIGKILL'
}
