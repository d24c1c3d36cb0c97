import { z } from 'zod'
import type { Result } from '../records/result.ts'
import { hasControl } from '../problems/control-characters.ts'
import { sha256 } from '../maths/sha256.ts'
import type { MadeWith } from './made-with.ts'
import type { OutputFiles } from '../files/write-whole.ts'

/** A name of a file below the folder: nothing that leads out of it, or steers the terminal it is shown on. */
const name = z.string().refine((file) => !hasControl(file) && !/^\/|\\|(?:^|\/)\.\.(?:\/|$)/.test(file))
const fileSchema = z.object({ file: name, sha256: z.string(), bytes: z.int().nonnegative() })

/** What is read back from a manifest.json; a file without these keys was not written by this program. */
export const manifestSchema = z.object({
  format: z.literal(1),
  program: z.object({ name: z.literal('burnline'), version: z.string() }),
  work_order: z.string(),
  verdict: z.string(),
  made_with: z.object({
    program: z.string(),
    templates: z.record(z.string(), z.string()),
    options: z.record(z.string(), z.union([z.string(), z.boolean()])),
  }),
  inputs: z.array(fileSchema),
  outputs: z.array(fileSchema),
  limits: z.array(z.object({ key: z.string(), value: z.number() })),
})
export type Manifest = z.infer<typeof manifestSchema>

/**
 * manifest.json: SHA-256 and size of every input and output file, program version, limits in force; and what the output
 * was made with, by which a later run tells whether it is up to date.
 *
 * @param verdict  the job's verdict in a few words, for the line of a run that finds it up to date
 */
export function manifestJson(
  result: Result,
  outputs: OutputFiles,
  { made, verdict }: { made: MadeWith; verdict: string },
): string {
  const files = [...outputs]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([file, bytes]) => ({ file, sha256: sha256(bytes), bytes: Buffer.byteLength(bytes) }))
  const manifest = {
    format: 1,
    program: result.program,
    work_order: result.job.work_order,
    verdict,
    made_with: made,
    inputs: result.inputs,
    ...(result.handed_in === undefined ? {} : { handed_in: result.handed_in }),
    outputs: files,
    limits: result.limits,
  }
  return `${JSON.stringify(manifest, null, 2)}\n`
}
