import { visible } from '../problems/control-characters.ts'
import yargs from 'yargs'
import { EXIT } from './exit-codes.ts'
import { addCommand } from './commands/add.ts'
import { checkCommand } from './commands/check.ts'
import { explainCommand } from './commands/explain.ts'
import { fleetCommand } from './commands/fleet.ts'
import { keyCommand } from './commands/key.ts'
import { listCommand } from './commands/list.ts'
import { newCommand } from './commands/new.ts'
import { peekCommand } from './commands/peek.ts'
import { proveCommand } from './commands/prove.ts'
import { redactCommand } from './commands/redact.ts'
import { reportCommand } from './commands/report.ts'
import { verifyCommand } from './commands/verify.ts'
import { UsageError } from './usage-error.ts'
import { VERSION } from './version.ts'

const cli = yargs(process.argv.slice(2))
  .scriptName('burnline')
  .usage('$0 <command>\n\nReads diagnostic job folders of ignition captures and tests, and writes reports.')
  .command(reportCommand)
  .command(checkCommand)
  .command(explainCommand)
  .command(newCommand)
  .command(addCommand)
  .command(peekCommand)
  .command(listCommand)
  .command(proveCommand)
  .command(fleetCommand)
  .command(verifyCommand)
  .command(keyCommand)
  .command(redactCommand)
  .demandCommand(1, 'Name a command; burnline --help lists them.')
  .strict()
  .locale('en')
  .version(VERSION)
  .exitProcess(false)
  .fail((message, error) => {
    throw error ?? new UsageError(message)
  })

// Before a command begins, yargs lays out its help, in case it should fail later on: longer than reading a job takes.
const { getInternalMethods } = cli as unknown as {
  getInternalMethods: () => { getUsageInstance: () => { cacheHelpMessage: () => void } }
}
getInternalMethods.call(cli).getUsageInstance().cacheHelpMessage = () => undefined

// A reader that closes its end, such as `head`, ends its lines and not the jobs.
process.stdout.on('error', (cause: NodeJS.ErrnoException) => {
  if (cause.code !== 'EPIPE') throw cause
})

// A function of its own, since the joined program is no module that may wait at its top.
void answer().then(() => {
  // Once all is said: left to itself, Node gives its memory back piece by piece first.
  process.stdout.write('', () => process.stderr.write('', () => process.exit()))
})

async function answer(): Promise<void> {
  try {
    await cli.parseAsync()
  } catch (cause) {
    if (cause instanceof UsageError) {
      process.stderr.write(`burnline: ${visible(cause.message)}\n`)
      process.exitCode = EXIT.usage
    } else {
      reportOurFault(cause)
    }
  }
}

function reportOurFault(cause: unknown): void {
  process.stderr.write(
    `burnline: internal error: ${cause instanceof Error ? (cause.stack ?? cause.message) : String(cause)}\n`,
  )
  process.exitCode = EXIT.internal
}
