import { cpSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { sha256 } from '../../../src/maths/sha256.ts'

/**
 * Copies a reported job with its output under other work orders, each output's manifest rewritten for its own job.yaml:
 * as many jobs that are up to date as are wanted, without the hours of reporting them.
 */
export function copyReported(
  job: { folder: string; output: string },
  count: number,
  into: { jobs: string; outRoot: string },
): string[] {
  const manifest = JSON.parse(readFileSync(join(job.output, 'manifest.json'), 'utf8')) as Manifest
  return Array.from({ length: count }, (_, i) => {
    const workOrder = `N-${i + 1}`
    const folder = join(into.jobs, workOrder)
    cpSync(job.folder, folder, { recursive: true })
    const text = readFileSync(join(folder, 'job.yaml'), 'utf8').replace(
      /^work_order: .*$/m,
      `work_order: ${workOrder}`,
    )
    writeFileSync(join(folder, 'job.yaml'), text)
    const output = join(into.outRoot, workOrder)
    cpSync(job.output, output, { recursive: true })
    const inputs = manifest.inputs.map((file) =>
      file.file === 'job.yaml'
        ? { file: 'job.yaml', sha256: sha256(Buffer.from(text)), bytes: Buffer.byteLength(text) }
        : file,
    )
    writeFileSync(
      join(output, 'manifest.json'),
      JSON.stringify({ ...manifest, work_order: workOrder, inputs }, null, 2),
    )
    return folder
  })
}

interface Manifest {
  work_order: string
  inputs: { file: string; sha256: string; bytes: number }[]
}
