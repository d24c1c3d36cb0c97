import { momentS } from '../test-log/moment.ts'
import type { TestFinding } from '../test-log/findings.ts'

/** The work of a job: whether there is any on record, and the moment of the last that has one, s. */
export interface Work {
  onRecord: boolean
  lastS: number | undefined
}

/** Anything that tells of work: a repair of the log, the technician's correction, or what is said to be taken after it. */
export function workOf(it: {
  tests: readonly TestFinding[]
  captures: readonly { stage: 'before' | 'after' }[]
  correction: string | undefined
}): Work {
  const moments = it.tests.filter((t) => t.step === 'repair').map((t) => momentS(t.at))
  return {
    onRecord:
      it.correction !== undefined ||
      moments.length > 0 ||
      [...it.tests, ...it.captures].some(({ stage }) => stage === 'after'),
    lastS: moments.length ? Math.max(...moments) : undefined,
  }
}

/** Something said to be taken after the work that its own time puts before it: it cannot speak for the state after. */
export const isTooEarly = (
  { stage, at }: { stage: 'before' | 'after'; at: string },
  { lastS }: Work,
): boolean => stage === 'after' && lastS !== undefined && momentS(at) < lastS
