import { basename, relative, resolve } from 'node:path'
import type { JobOutcome } from '../batch/job-outcome.ts'
import type { PageOptions } from '../chain/run-job.ts'
import { JobError } from '../problems/problem.ts'
import { REDACTABLE_FIELDS, type RedactableField } from '../records/redact/fields.ts'
import { say } from '../texts/say.ts'
import { printLine } from './print-line.ts'
import { exitCodeOf, printProblems } from './print-problems.ts'
import { readHandedIn, type HandedIn } from './read-handed-in.ts'
import { readSigning } from './read-key.ts'
import { readWriting, type WritingArgs } from './read-shop.ts'
import { UsageError } from './usage-error.ts'
import { VERSION } from './version.ts'

/** What to take out, for the command line's help. */
export const REDACT_HELP = `What to take out, parted by commas: ${REDACTABLE_FIELDS.join(', ')}`
/** What to do with near words, for the command line. */
export const NEAR_OPTION = {
  near: {
    choices: ['ask', 'mask', 'keep'] as const,
    default: 'ask' as const,
    describe: 'Words near those taken out: name them and make no copy, take them out too, or leave them',
  },
} as const
/** Folder of the copies where none is named: another than that of the originals, so that no roll-up counts a job twice. */
export const COPIES = 'copies'

export interface RedactCall extends HandedIn, WritingArgs {
  folders: readonly string[]
  redact: string
  key: string | undefined
  'signed-at': string | undefined
  out: string
  near?: 'ask' | 'mask' | 'keep'
  captures: boolean
  replaces: string | undefined
}

/** Writes a copy of each job's report without some words; one line a copy. */
export async function redactJobs({
  folders,
  redact,
  key,
  out,
  page,
  language,
  shop,
  texts: ownTexts,
  replaces,
  near = 'ask',
  ...handedIn
}: RedactCall): Promise<void> {
  const fields = readFields(redact)
  const { texts, ...written } = await readWriting({ page, language, shop, texts: ownTexts })
  const { redactJob } = await import('../evidence/redact-job.ts')
  const signing = readSigning({ key, signedAt: handedIn['signed-at'] })
  const options: PageOptions = {
    ...written,
    version: VERSION,
    embedCaptures: handedIn.captures,
    ...readHandedIn(handedIn),
    ...signing,
    ...(replaces === undefined ? {} : { replaces: resolve(replaces) }),
  }
  const failed: JobOutcome[] = []
  for (const folder of folders) {
    try {
      const { output, workOrder } = await redactJob(resolve(folder), {
        outRoot: resolve(out),
        fields,
        near,
        options,
        texts,
      })
      const proof = say(texts, key === undefined ? 'redact.unproven' : 'redact.proven')
      printLine(
        `${workOrder}  ${say(texts, 'redact.without', { fields: fields.join(', ') })}  ${relative(process.cwd(), output) || '.'}  ${proof}`,
      )
    } catch (cause) {
      if (!(cause instanceof JobError)) throw cause
      printProblems(texts, basename(folder), cause.problems)
      failed.push({ folder, state: 'invalid', problems: cause.problems })
    }
  }
  process.exitCode = exitCodeOf(failed)
}

function readFields(words: string): RedactableField[] {
  const asked = words
    .split(',')
    .map((word) => word.trim())
    .filter(Boolean)
  const unknown = asked.find((word) => !(REDACTABLE_FIELDS as string[]).includes(word))
  if (unknown !== undefined || asked.length === 0) {
    throw new UsageError(
      `--redact takes ${REDACTABLE_FIELDS.join(', ')}, parted by commas; found “${unknown ?? words}”`,
    )
  }
  return REDACTABLE_FIELDS.filter((field) => asked.includes(field))
}
