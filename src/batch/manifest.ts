import { createHash } from 'node:crypto'
import type { Result } from '../records/result.ts'
import type { OutputFiles } from './write-whole.ts'

/** SHA-256 of bytes or text (UTF-8), lower-case hex. */
export const sha256 = (bytes: Uint8Array | string): string => createHash('sha256').update(bytes).digest('hex')

/** manifest.json: SHA-256 and size of every input and output file, program version, limits in force. */
export function manifestJson(result: Result, outputs: OutputFiles): string {
  const files = [...outputs].sort(([a], [b]) => (a < b ? -1 : 1)).map(([file, bytes]) =>
    ({ file, sha256: sha256(bytes), bytes: Buffer.byteLength(bytes) }))
  const manifest = {
    format: 1,
    program: result.program,
    work_order: result.job.work_order,
    inputs: result.inputs,
    outputs: files,
    limits: result.limits,
  }
  return `${JSON.stringify(manifest, null, 2)}\n`
}
