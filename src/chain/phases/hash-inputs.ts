import { join } from 'node:path'
import type { JobFolder } from '../../job/job-folder.ts'
import type { Result } from '../../records/result.ts'
import { digestFile } from '../../files/digest-file.ts'

/**
 * Every input file of the job with its digest, by name: what the evidence list prints.
 *
 * @param known  digests taken while decoding, so that a large capture is not read twice
 */
export async function hashInputs(
  jobFolder: JobFolder,
  known: ReadonlyMap<string, { sha256: string; bytes: number }>,
): Promise<Result['inputs']> {
  const paths = new Map<string, string>([
    ['job.yaml', join(jobFolder.folder, 'job.yaml')],
    ...jobFolder.files,
  ])
  const listed: Result['inputs'] = []
  for (const [file, path] of [...paths].sort(([a], [b]) => (a < b ? -1 : 1))) {
    listed.push({ file, ...(known.get(file) ?? (await digestFile(path))) })
  }
  return listed
}
