import { expect, test } from 'vitest'
import { recordFolder } from '../support/composed/run.ts'
import { amiss } from '../support/workshop/hold.ts'
import { filesOf } from '../support/workshop/job.ts'
import { WORKSHOP_JOBS } from '../support/workshop/jobs.ts'

// What each should conclude is a master technician's word, common practice, no source; written down before it was run.
test.each(WORKSHOP_JOBS)('$name: $why', async (job) => {
  const { result } = await recordFolder(filesOf(job))
  expect(amiss(result, job.expects)).toEqual([])
})
