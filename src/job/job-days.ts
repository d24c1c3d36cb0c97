import type { JobDays } from './local-time.ts'
import type { Job } from './schema.ts'

/** Days after its opening within which the work of a job that is not closed is looked for. */
const OPEN_DAYS = 31
const DAY_MS = 86_400_000

/** The days of a job, the one day where all of it falls on one, and the zone where its captures state one. */
export function daysOfJob(job: Pick<Job, 'opened' | 'closed' | 'captures'> | undefined): JobDays {
  if (job === undefined) return { from: undefined, to: undefined, only: undefined, zone: undefined }
  const days = [
    job.opened,
    ...(job.closed ? [job.closed] : []),
    ...job.captures.map((c) => c.taken.slice(0, 10)),
  ]
  const zones = new Set(job.captures.map((c) => /(?:Z|[+-]\d{2}:\d{2})$/.exec(c.taken)?.[0]))
  const late = new Date(Date.parse(job.opened) + OPEN_DAYS * DAY_MS).toISOString().slice(0, 10)
  return {
    from: days.toSorted()[0],
    to: job.closed ?? late,
    only: new Set(days).size === 1 ? days[0] : undefined,
    zone: zones.size === 1 ? [...zones][0] : undefined,
  }
}
