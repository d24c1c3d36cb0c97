#!/usr/bin/env node
import yargs from 'yargs'
import { EXIT } from './exit-codes.ts'
import { checkCommand } from './commands/check.ts'
import { reportCommand } from './commands/report.ts'
import { VERSION } from './version.ts'

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
    if (error) throw error
    process.stderr.write(`burnline: ${message}\n`)
    process.exitCode = EXIT.usage
  })

try {
  await cli.parseAsync()
} catch (cause) {
  process.stderr.write(`burnline: internal error: ${cause instanceof Error ? (cause.stack ?? cause.message) : String(cause)}\n`)
  process.exitCode = EXIT.internal
}
