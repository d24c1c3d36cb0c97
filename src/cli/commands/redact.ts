import { basename, relative, resolve } from 'node:path'
import type { CommandModule } from 'yargs'
import type { JobOutcome } from '../../batch/job-outcome.ts'
import { JobError } from '../../problems/problem.ts'
import { REDACTABLE_FIELDS, type RedactableField } from '../../records/redact/fields.ts'
import { loadTexts } from '../../texts/load-texts.ts'
import { say } from '../../texts/say.ts'
import { exitCodeOf, printProblems } from '../print-problems.ts'
import { readHandedIn } from '../read-handed-in.ts'
import { readSigningKey } from '../read-key.ts'
import { readWriting, WRITING_OPTIONS, type WritingArgs } from '../read-shop.ts'
import { UsageError } from '../usage-error.ts'
import { VERSION } from '../version.ts'

interface RedactArgs extends WritingArgs {
  folders: string[]; redact: string; key: string | undefined; out: string; replaces: string | undefined
  captures: boolean; limits: string | undefined; causes: string | undefined; proof: string | undefined
}

/** `burnline redact <job-folder>... --redact customer,vin`: copies of reports without some words, for training or a dispute. */
export const redactCommand: CommandModule<object, RedactArgs> = {
  command: 'redact <folders..>',
  describe: 'Copy reports without names, numbers or words; with the key they were signed with, what remains can be checked.',
  builder: (y) => y
    .positional('folders', { type: 'string', array: true, demandOption: true, describe: 'Job folders' })
    .option('redact', { type: 'string', demandOption: true, describe: `What to take out, parted by commas: ${REDACTABLE_FIELDS.join(', ')}` })
    .option('key', { type: 'string', describe: 'The shop’s private key, the one the original was signed with' })
    .option('out', { type: 'string', default: 'copies', describe: 'Folder that receives one folder a copy' })
    .options(WRITING_OPTIONS)
    .option('replaces', { type: 'string', describe: 'What the original replaces' })
    .option('captures', { type: 'boolean', default: false, describe: 'The original was made with --captures; the copy holds none' })
    .option('limits', { type: 'string', describe: 'The file of limits the original was made with' })
    .option('causes', { type: 'string', describe: 'The file of causes the original was made with' })
    .option('proof', { type: 'string', describe: 'The proof file the original was made with' }) as never,
  handler: async ({ folders, redact, key, out, page, language: asked, shop, replaces, ...handedIn }) => {
    const fields = readFields(redact)
    const { language, ...written } = await readWriting({ page, language: asked, shop })
    const texts = loadTexts(language)
    const { redactJob } = await import('../../batch/redact-job.ts')
    const options = {
      ...written, version: VERSION, embedCaptures: handedIn.captures, ...readHandedIn(handedIn),
      ...(key === undefined ? {} : { signingKeyPem: readSigningKey(key) }), ...(replaces === undefined ? {} : { replaces: resolve(replaces) }),
    }
    const failed: JobOutcome[] = []
    for (const folder of folders) {
      try {
        const { output, workOrder } = await redactJob(resolve(folder), { outRoot: resolve(out), fields, options, texts })
        const proof = say(texts, key === undefined ? 'redact.unproven' : 'redact.proven')
        process.stdout.write(`${workOrder}  ${say(texts, 'redact.without', { fields: fields.join(', ') })}  ${relative(process.cwd(), output) || '.'}  ${proof}\n`)
      } catch (cause) {
        if (!(cause instanceof JobError)) throw cause
        printProblems(texts, basename(folder), cause.problems)
        failed.push({ folder, state: 'invalid', problems: cause.problems })
      }
    }
    process.exitCode = exitCodeOf(failed)
  },
}

function readFields(words: string): RedactableField[] {
  const asked = words.split(',').map((word) => word.trim()).filter(Boolean)
  const unknown = asked.find((word) => !(REDACTABLE_FIELDS as string[]).includes(word))
  if (unknown !== undefined || asked.length === 0) {
    throw new UsageError(`--redact takes ${REDACTABLE_FIELDS.join(', ')}, parted by commas; found “${unknown ?? words}”`)
  }
  return REDACTABLE_FIELDS.filter((field) => asked.includes(field))
}
