import { expect, test } from 'vitest'
import { momentInJob } from '../../src/job/local-time.ts'

const DAY = { from: '2026-03-05', to: '2026-03-05', zone: '-05:00' }
test.each([
  ['05.03.2026 09:02', '2026-03-05T09:02-05:00'],
  ['5.3.26 9:02', '2026-03-05T09:02-05:00'],
  ['3/5/2026 9:02 am', '2026-03-05T09:02-05:00'],
  ['5/3/2026 9:02 pm', '2026-03-05T21:02-05:00'],
  ['12:10 am', '2026-03-05T00:10-05:00'],
  ['9:02', '2026-03-05T09:02-05:00'],
  ['9h02', '2026-03-05T09:02-05:00'],
  ['2026-03-05 09:02', '2026-03-05T09:02-05:00'],
  ['2026-03-05T09:02:00Z', '2026-03-05T09:02:00Z'],
])('%s in a job of that day', (text, at) => expect(momentInJob(text, DAY)).toBe(at))

test('a date that may have either first stays open where the job does not tell', () => {
  expect(momentInJob('3/5/2026 9:02', { from: undefined, to: undefined, zone: undefined })).toEqual([
    '2026-03-05T09:02',
    '2026-05-03T09:02',
  ])
  expect(
    momentInJob('3/5/2026 9:02', { from: '2026-03-01', to: '2026-06-01', zone: undefined }),
  ).toHaveLength(2)
})
test.each(['soon', '25:00', '31.02.2026 09:00', '13/13/2026 9:00', '13:00 pm'])('“%s” is no time', (text) =>
  expect(momentInJob(text, DAY)).toBeUndefined(),
)
