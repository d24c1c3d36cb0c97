import { join } from 'node:path'
import { expect, test, vi } from 'vitest'
import { reportJob, type CallSettings } from '../../src/batch/report-job.ts'

const runJob = vi.hoisted(() => vi.fn<() => Promise<never>>())
vi.mock('../../src/chain/run-job.ts', () => ({ runJob }))

const settings: CallSettings = {
  outRoot: join('/', 'not', 'written'),
  options: { page: 'A4', version: '0', embedCaptures: false },
  made: { program: '', templates: {}, options: {} },
  texts: { language: 'en', templates: {} },
}
const systemError = (code: string, path: string) =>
  Object.assign(new Error(`${code}: ${path}`), { code, path })

test.each([
  [
    'an input that vanished while the job ran',
    systemError('ENOENT', '/jobs/a/captures/x.csv'),
    'missing-file',
    'captures/x.csv',
  ],
  [
    'an input that cannot be read any more',
    systemError('EIO', '/jobs/a/photos/p.jpg'),
    'unreadable-file',
    'photos/p.jpg',
  ],
  ["a file that is none of the job's", systemError('ENOENT', '/elsewhere/x'), 'internal-error', 'a'],
  [
    'a file of the program that cannot be opened for now',
    systemError('EMFILE', '/elsewhere/x'),
    'system-short',
    'a',
  ],
  ['memory that is not to be had', new RangeError('Array buffer allocation failed'), 'out-of-memory', 'a'],
  ['another fault', new TypeError('x is not a function'), 'internal-error', 'a'],
])('%s ends one job, with a code', async (_, cause, code, file) => {
  runJob.mockRejectedValueOnce(cause)
  const outcome = await reportJob({ folder: '/jobs/a', why: [] }, settings)
  expect(outcome).toMatchObject({ folder: '/jobs/a', state: 'invalid', problems: [{ code, file }] })
})
