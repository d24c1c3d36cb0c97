import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'
import { LongestFirst } from './support/longest-first.ts'

/**
 * Files with a process of their own: those that put something else in a module's place, so that no other file meets it,
 * and one that holds every reader to a time, which a process grown old by other files would not keep.
 */
const APART = [
  'tests/batch/report-job.test.ts',
  'tests/chain/made-up-step.test.ts',
  'tests/chain/made-up-verdict.test.ts',
  'tests/job/hostile.test.ts',
]

export default defineConfig({
  test: {
    root: fileURLToPath(new URL('..', import.meta.url)),
    testTimeout: 60_000,
    hookTimeout: 120_000,
    reporters: ['default'],
    // As many processes as there are processors; each loads the program once for all its files.
    maxWorkers: '100%',
    globalSetup: 'tests/support/keep-measurements.ts',
    sequence: { sequencer: LongestFirst },
    projects: [
      {
        extends: true,
        test: { name: 'shared', include: ['tests/**/*.test.ts'], exclude: APART, isolate: false },
      },
      { extends: true, test: { name: 'alone', include: APART } },
    ],
  },
})
