import { spawn } from 'node:child_process'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'

/** Which share of a bench's seeds this process runs: `BENCH_PART=2/3`; undefined in the process that gathers. */
export function partOfBench(): { part: number; of: number } | undefined {
  const [part, of] = (process.env['BENCH_PART'] ?? '').split('/').map(Number)
  return part && of ? { part, of } : undefined
}

/** Hands one result to the process that gathers. */
export const hand = (result: unknown): void => {
  process.stdout.write(`${JSON.stringify(result)}\n`)
}

/**
 * Runs a bench in as many processes as `BENCH_JOBS` says (2), each with its share of the seeds.
 * @param bench  its name, as for run.mjs
 * @param take   called with every result handed in, in no order
 * @throws       where a process fails
 */
export async function gatherParts<T>(bench: string, take: (result: T) => void): Promise<void> {
  const of = Math.max(1, Number(process.env['BENCH_JOBS'] ?? 2))
  const runner = fileURLToPath(new URL('./run.mjs', import.meta.url))
  await Promise.all(
    Array.from(
      { length: of },
      (_, k) =>
        new Promise<void>((done, failed) => {
          const child = spawn(process.execPath, [runner, bench], {
            env: { ...process.env, BENCH_PART: `${k + 1}/${of}` },
            stdio: ['ignore', 'pipe', 'inherit'],
          })
          createInterface({ input: child.stdout }).on('line', (line) => take(JSON.parse(line) as T))
          child.on('error', failed)
          child.on('close', (code) =>
            code === 0 ? done() : failed(new Error(`part ${k + 1} of ${bench} ended with ${code}`)),
          )
        }),
    ),
  )
}
