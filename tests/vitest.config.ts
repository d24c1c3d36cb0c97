import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'
import { LongestFirst } from './support/longest-first.ts'

/** Files that put something else in a module's place: each has a process of its own, so that no other file meets it. */
const MOCKING = ['tests/batch/report-job.test.ts', 'tests/chain/made-up-step.test.ts']

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
        test: { name: 'shared', include: ['tests/**/*.test.ts'], exclude: MOCKING, isolate: false },
      },
      { extends: true, test: { name: 'alone', include: MOCKING } },
    ],
  },
})
