import { mkdirSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { DEMO_JOBS } from './demo-jobs.ts'
import { jobFiles } from './write-job.ts'

/** Writes every demo job into inputs/ of this checkout: the only file here that touches the disk. */
const inputs = fileURLToPath(new URL('../../inputs', import.meta.url))
for (const demo of DEMO_JOBS) {
  for (const [path, bytes] of jobFiles(demo)) {
    const file = join(inputs, path)
    mkdirSync(dirname(file), { recursive: true })
    writeFileSync(file, bytes)
  }
}
