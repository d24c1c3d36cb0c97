import { NO_STORE, openStore, type MeasuredStore } from '../../src/chain/measured-store.ts'

/**
 * What was measured of the jobs of inputs/ and of tests/fixtures, once a run of the tests: many tests ask what follows from the
 * same captures, in another language or on another page. That a kept measurement gives the same bytes as a new one is
 * held by tests/cli/batch.test.ts. Made and taken away by tests/support/keep-measurements.ts.
 */
const folder = process.env['BURNLINE_TEST_STORE']
export const KEPT: MeasuredStore = folder === undefined ? NO_STORE : openStore(folder)
