import { PassThrough } from 'node:stream'
import { answer } from '../../src/cli/answer.ts'

/** One call of the program in this process, as somebody at a terminal would see it. */
export interface Call {
  status: number
  out: string
  err: string
  /** Both streams in the order they were written, each answer behind its question. */
  seen: string
  /** Answers that were asked for. */
  answered: readonly string[]
}

/**
 * Runs a command of the program in this process: parsed, run and told as from a shell, without starting it anew.
 * @param answers  lines for the questions it asks, in turn; empty ones after the last
 */
export async function burnline(words: readonly string[], answers: readonly string[] = []): Promise<Call> {
  const said = { out: '', err: '', seen: '' }
  const answered: string[] = []
  const own = { out: process.stdout.write, err: process.stderr.write, stdin: process.stdin }
  const told = { exitCode: process.exitCode }
  // Each answer comes when it is asked for, as somebody types it.
  const input = new PassThrough()
  const taker = (stream: 'out' | 'err'): typeof process.stdout.write =>
    ((text: string | Uint8Array, ...rest: unknown[]) => {
      const written = typeof text === 'string' ? text : Buffer.from(text).toString('utf8')
      said[stream] += written
      said.seen += written
      if (stream === 'err' && /[:?] $/.test(written)) {
        const line = answers[answered.length] ?? ''
        answered.push(line)
        said.seen += `${line}\n`
        input.write(`${line}\n`)
      }
      rest.forEach((each) => typeof each === 'function' && (each as () => void)())
      return true
    }) as typeof process.stdout.write
  Object.defineProperty(process, 'stdin', { value: input, configurable: true })
  process.stdout.write = taker('out')
  process.stderr.write = taker('err')
  process.exitCode = undefined
  try {
    await answer(words)
    return { status: Number(process.exitCode ?? 0), ...said, answered }
  } finally {
    process.exitCode = told.exitCode
    process.stdout.write = own.out
    process.stderr.write = own.err
    Object.defineProperty(process, 'stdin', { value: own.stdin, configurable: true })
  }
}
