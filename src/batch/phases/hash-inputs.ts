import { createHash } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { join } from 'node:path'
import type { JobFolder } from '../../job/job-folder.ts'
import type { Result } from '../../records/result.ts'

/** SHA-256 and size of a file as stored, read in pieces. */
async function digest(path: string): Promise<{ sha256: string; bytes: number }> {
  const hash = createHash('sha256')
  let bytes = 0
  for await (const piece of createReadStream(path)) {
    hash.update(piece as Buffer)
    bytes += (piece as Buffer).length
  }
  return { sha256: hash.digest('hex'), bytes }
}

/**
 * Every input file of the job with its digest, by name: what the evidence list prints.
 *
 * @param known  digests taken while decoding, so that a large capture is not read twice
 */
export async function hashInputs(
  jobFolder: JobFolder, known: ReadonlyMap<string, { sha256: string; bytes: number }>,
): Promise<Result['inputs']> {
  const paths = new Map<string, string>([['job.yaml', join(jobFolder.folder, 'job.yaml')], ...jobFolder.files])
  const listed: Result['inputs'] = []
  for (const [file, path] of [...paths].sort(([a], [b]) => (a < b ? -1 : 1))) {
    listed.push({ file, ...(known.get(file) ?? await digest(path)) })
  }
  return listed
}
