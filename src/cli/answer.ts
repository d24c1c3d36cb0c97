import { existsSync } from 'node:fs'
import yargs from 'yargs'
import { visible } from '../problems/control-characters.ts'
import { PASSING } from '../problems/passing.ts'
import { EXIT } from './exit-codes.ts'
import { addCommand } from './commands/add.ts'
import { checkCommand } from './commands/check.ts'
import { explainCommand } from './commands/explain.ts'
import { fleetCommand } from './commands/fleet.ts'
import { keyCommand } from './commands/key.ts'
import { listCommand } from './commands/list.ts'
import { logCommand } from './commands/log.ts'
import { newCommand } from './commands/new.ts'
import { peekCommand } from './commands/peek.ts'
import { proveCommand } from './commands/prove.ts'
import { redactCommand } from './commands/redact.ts'
import { reportCommand } from './commands/report.ts'
import { verifyCommand } from './commands/verify.ts'
import { withPlainSigns } from '../texts/plain-signs.ts'
import { isShownWell } from './terminal.ts'
import { UsageError } from './usage-error.ts'
import { usageWords, type CallWords } from './usage-words.ts'
import { VERSION } from './version.ts'

const COMMANDS = [
  reportCommand,
  checkCommand,
  explainCommand,
  newCommand,
  addCommand,
  logCommand,
  peekCommand,
  listCommand,
  proveCommand,
  fleetCommand,
  verifyCommand,
  keyCommand,
  redactCommand,
]

/** The parser of one call. */
function parserOf(argv: readonly string[]) {
  const cli = yargs([...argv])
    .scriptName('burnline')
    .usage('$0 <command>\n\nReads diagnostic job folders of ignition captures and tests, and writes reports.')
    .command(COMMANDS as never)
    .demandCommand(1, 'Name a command; burnline --help lists them.')
    .strict()
    .recommendCommands()
    .completion('completion', 'Print a script that completes commands and options (bash, zsh).')
    .example('$0 peek before.csv', 'what is in a recorder’s export')
    .example('$0 new KB-26-0417 before.csv', 'a job folder from it')
    .example('$0 log KB-26-0417 spray "runner 2 joint" response', 'a test as it is done')
    .example('$0 report KB-26-0417', 'outputs/KB-26-0417/report.pdf')
    .locale('en')
    .version(VERSION)
    .exitProcess(false)
    .fail((message, error) => {
      throw error ?? new UsageError(usageWords(message, callWords(argv, cli)))
    })
  // Before a command begins, yargs lays out its help, in case it should fail later on: longer than reading a job takes.
  const { getInternalMethods } = cli as unknown as {
    getInternalMethods: () => { getUsageInstance: () => { cacheHelpMessage: () => void } }
  }
  getInternalMethods.call(cli).getUsageInstance().cacheHelpMessage = () => undefined
  return cli
}

/** What was typed, and what could have been: the parser knows the options of the command it failed in. */
const callWords = (argv: readonly string[], cli: object): CallWords => ({
  argv: [...argv],
  commands: NAMES,
  options: Object.keys((cli as { getOptions: () => { key: object } }).getOptions().key),
  exists: existsSync,
})

const NAMES = COMMANDS.map(({ command }) => String(command).split(' ')[0]!)

/** The command whatever its capitals: `Report`. */
function inSmall([first, ...rest]: readonly string[]): string[] {
  if (first === undefined) return []
  const name = NAMES.find((known) => known === first.toLowerCase())
  return [name ?? first, ...rest]
}

/** Does what one command line asks for. What came of it goes to standard output, standard error and `process.exitCode`. */
export async function answer(argv: readonly string[]): Promise<void> {
  const print = console.log
  // The parser prints its help by itself.
  console.log = (text: string) =>
    void process.stdout.write(`${isShownWell() ? text : withPlainSigns(text)}\n`)
  try {
    await parserOf(inSmall(argv)).parseAsync()
  } catch (cause) {
    if (cause instanceof UsageError) {
      const message = isShownWell() ? cause.message : withPlainSigns(cause.message)
      process.stderr.write(`burnline: ${visible(message)}\n`)
      process.exitCode = EXIT.usage
    } else {
      reportOurFault(cause)
    }
  } finally {
    console.log = print
  }
}

/** Tells of an error that no command answers for: what the system is short of for now, or a fault of this program. */
export function reportOurFault(cause: unknown): void {
  const { code, message } = cause as NodeJS.ErrnoException
  if (code !== undefined && PASSING.has(code)) {
    process.stderr.write(`burnline: ${visible(message)}\n`)
    process.exitCode = EXIT.tryAgain
    return
  }
  process.stderr.write(
    `burnline: internal error: ${cause instanceof Error ? (cause.stack ?? cause.message) : String(cause)}\n`,
  )
  process.exitCode = EXIT.internal
}
