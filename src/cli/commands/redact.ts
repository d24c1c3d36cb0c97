import type { CommandModule } from 'yargs'
import { WRITING_OPTIONS } from '../read-shop.ts'
import { COPIES, NEAR_OPTION, REDACT_HELP, redactJobs, type RedactCall } from '../redact-jobs.ts'

/** `burnline redact <job-folder>... --redact customer,vin`: copies of reports without some words, for training or a dispute. */
export const redactCommand: CommandModule<object, RedactCall> = {
  command: 'redact <folders..>',
  describe:
    'Copy reports without names, numbers or words; with the key they were signed with, what remains can be checked.',
  builder: (y) =>
    y
      .positional('folders', { type: 'string', array: true, demandOption: true, describe: 'Job folders' })
      .option('redact', { type: 'string', demandOption: true, describe: REDACT_HELP })
      .option('key', {
        type: 'string',
        describe: 'The shop’s private key, the one the original was signed with',
      })
      .option('signed-at', { type: 'string', describe: 'Date of signing the original was made with' })
      .options(NEAR_OPTION)
      .option('out', { type: 'string', default: COPIES, describe: 'Folder that receives one folder a copy' })
      .options(WRITING_OPTIONS)
      .option('replaces', { type: 'string', describe: 'What the original replaces' })
      .option('captures', {
        type: 'boolean',
        default: false,
        describe: 'The original was made with --captures; the copy holds none',
      })
      .option('limits', { type: 'string', describe: 'The file of limits the original was made with' })
      .option('causes', { type: 'string', describe: 'The file of causes the original was made with' })
      .option('proof', { type: 'string', describe: 'The proof file the original was made with' })
      .example('$0 redact KB-26-0417 --redact customer,vin', 'a copy below copies/') as never,
  handler: redactJobs,
}
