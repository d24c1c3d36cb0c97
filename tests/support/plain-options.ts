import type { JobOptions } from '../../src/chain/run-job.ts'
import { KEPT } from './kept-measurements.ts'

/** A report with nothing asked for, on jobs of inputs/ and tests/fixtures: each is measured once a run of the tests. */
export const PLAIN: JobOptions = {
  page: 'A4',
  version: '0',
  embedCaptures: false,
  program: 'test',
  store: KEPT,
}
