import { answer, reportOurFault } from './answer.ts'
import { EXIT } from './exit-codes.ts'

/** What went wrong with standard output or error: lines that nobody got are no success. */
let lost: { stream: string; code: string } | undefined
for (const [stream, name] of [
  [process.stdout, 'standard output'],
  [process.stderr, 'standard error'],
] as const)
  // A reader that closes its end, such as `head`, or a full disk ends the lines and not the jobs.
  stream.on('error', (cause: NodeJS.ErrnoException) => {
    lost ??= { stream: name, code: cause.code ?? cause.message }
  })

// A function of its own, since the joined program is no module that may wait at its top.
void answer(process.argv.slice(2)).then(() => {
  // At the end: left to itself, Node gives its memory back piece by piece first.
  // What went wrong with a stream is told a moment after whoever wrote is.
  process.stdout.write('', () =>
    setImmediate(() => tellLost(() => process.stderr.write('', () => process.exit()))),
  )
})

function tellLost(then: () => void): void {
  if (!lost) return then()
  process.exitCode ||= EXIT.cannotWrite
  process.stderr.write(
    `burnline: ${lost.stream}: ${lost.code}; lines that were to be written there are lost\n`,
    then,
  )
}

// What fails between two turns of the program, such as a part of it that cannot be opened any more, is told as well.
process.on('uncaughtException', (cause) => {
  reportOurFault(cause)
  process.exit()
})
