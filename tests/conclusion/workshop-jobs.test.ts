import { expect, test } from 'vitest'
import { Library, recordFolder } from '../support/composed/run.ts'
import { amiss } from '../support/workshop/hold.ts'
import { LONG_RUN } from '../support/long-run.ts'
import { filesOf, type WorkshopJob } from '../support/workshop/job.ts'
import { FIFTH_JOBS } from '../support/workshop/fifth-jobs.ts'
import { FOURTH_JOBS } from '../support/workshop/fourth-jobs.ts'
import { FURTHER_JOBS } from '../support/workshop/further-jobs.ts'
import { WORKSHOP_JOBS } from '../support/workshop/jobs.ts'
import { THIRD_JOBS } from '../support/workshop/third-jobs.ts'

/** A short run has the newest jobs and every second of the older ones. */
const OLDER = [...WORKSHOP_JOBS, ...FURTHER_JOBS, ...THIRD_JOBS, ...FOURTH_JOBS]
const JOBS = [...OLDER.filter(({ name }, i) => LONG_RUN || i % 2 === 0 || name === 'W22'), ...FIFTH_JOBS]

/** Jobs whose report is not yet what the technician expects, and in what; the day one comes out right its test asks to be moved. */
const NOT_YET: ReadonlySet<string> = new Set([
  'FV25', // hot and stone cold stand in notes of the log alone, so that the two sprays contradict one another
  'FV36', // wasted spark, resistance in one lead: its line is not judged, so that the meter alone shows it mended
  'W22', // wasted spark, both of a coil missing half: of 3 the turns are not told apart, so that it is not judged
])

// What each should conclude is a master technician's word, common practice, no source; written down before it was run.
test.each(JOBS.filter(({ name }) => !NOT_YET.has(name)))('$name: $why', async (job) => {
  expect(await amissOf(job)).toEqual([])
})

test.fails.each(JOBS.filter(({ name }) => NOT_YET.has(name)))('not yet: $name: $why', async (job) => {
  expect(await amissOf(job)).toEqual([])
})

const library = new Library()

async function amissOf(job: WorkshopJob): Promise<string[]> {
  const { files, store } = library.of(filesOf(job))
  const { result } = await recordFolder(files, store)
  return amiss(result, job.expects)
}
