import { join } from 'node:path'
import type { AskedJob } from '../chain/history.ts'
import { marksOf } from '../chain/vehicle-marks.ts'
import { readRegularText } from '../files/regular-file.ts'
import { statOf } from '../files/stat-of.ts'
import { JOB_FILE } from '../job/own-files.ts'
import { jobSchema } from '../job/schema.ts'
import { withUsualSpellings } from '../job/usual-spellings.ts'
import { readYaml } from '../job/yaml-document.ts'
import type { ReadingLimits } from '../limits/reading-limits.ts'

/** What a history is asked by, from job.yaml alone; undefined where it cannot be read. */
export function askedJob(folder: string, { jobBytes }: ReadingLimits): AskedJob | undefined {
  try {
    const path = join(folder, JOB_FILE)
    if ((statOf(path)?.size ?? Infinity) > jobBytes) return undefined
    const text = readRegularText(path).replace(/^\ufeff/, '')
    const job = jobSchema.safeParse(withUsualSpellings(readYaml(JOB_FILE, text)).data).data
    return job && { workOrder: job.work_order, opened: job.opened, vehicle: marksOf(job) }
  } catch {
    return undefined // the job's own reader says why
  }
}
