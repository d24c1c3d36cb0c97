#!/usr/bin/env node
import yargs from 'yargs'
import { EXIT } from './exit-codes.ts'
import { checkCommand } from './commands/check.ts'
import { reportCommand } from './commands/report.ts'
import { VERSION } from './version.ts'

/** A wrong command line. Thrown so that no command runs on it. */
class UsageError extends Error {}

const cli = yargs(process.argv.slice(2))
  .scriptName('burnline')
  .usage('$0 <command>\n\nReads diagnostic job folders of ignition captures and tests, and writes reports.')
  .command(reportCommand)
  .command(checkCommand)
  .demandCommand(1, 'Name a command; burnline --help lists them.')
  .strict()
  .locale('en')
  .version(VERSION)
  .exitProcess(false)
  .fail((message, error) => {
    throw error ?? new UsageError(message)
  })

try {
  await cli.parseAsync()
} catch (cause) {
  if (cause instanceof UsageError) {
    process.stderr.write(`burnline: ${cause.message}\n`)
    process.exitCode = EXIT.usage
  } else {
    reportOurFault(cause)
  }
}

function reportOurFault(cause: unknown): void {
  process.stderr.write(`burnline: internal error: ${cause instanceof Error ? (cause.stack ?? cause.message) : String(cause)}\n`)
  process.exitCode = EXIT.internal
}
