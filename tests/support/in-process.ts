import { answer } from '../../src/cli/answer.ts'

/** What a call of the program would have left behind. */
export interface Ended {
  status: number
  stdout: string
  stderr: string
}

/**
 * One call of the program in this process: what it decides, prints and writes is the same, and a start and a cold machine
 * are not paid for. Processes, signals, threads and streams are shown by calls of their own.
 *
 * @param cwd  working folder of the call
 */
export async function inProcess(args: readonly string[], cwd = process.cwd()): Promise<Ended> {
  const before = process.cwd()
  const streams = [process.stdout, process.stderr] as const
  const writes = streams.map((stream) => stream.write.bind(stream))
  const told = ['', '']
  streams.forEach((stream, i) => {
    stream.write = ((piece: string | Uint8Array, ...more: unknown[]): boolean => {
      told[i] += typeof piece === 'string' ? piece : Buffer.from(piece).toString()
      const done = more.at(-1)
      if (typeof done === 'function') (done as () => void)()
      return true
    }) as typeof stream.write
  })
  try {
    process.chdir(cwd)
    process.exitCode = 0
    await answer(args)
    return { status: Number(process.exitCode), stdout: told[0]!, stderr: told[1]! }
  } finally {
    streams.forEach((stream, i) => {
      stream.write = writes[i]!
    })
    process.exitCode = undefined
    process.chdir(before)
  }
}
