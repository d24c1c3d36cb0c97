import type { JobOutcome } from '../batch/job-outcome.ts'
import { enterReports } from '../evidence/ledger-file.ts'
import { JobError } from '../problems/problem.ts'
import { signerFor } from '../seal/signing-key.ts'
import type { Texts } from '../texts/messages.ts'
import { EXIT } from './exit-codes.ts'
import { printProblems } from './print-problems.ts'

/** Enters the reports of a call into a ledger, those found up to date too, in the order of the call. */
export async function enterOutcomes(
  path: string,
  outcomes: readonly JobOutcome[],
  how: { texts: Texts; signingKeyPem?: string },
): Promise<void> {
  try {
    // What was made or checked, not what stands there by now: somebody may have changed it since.
    const reports = outcomes.flatMap((outcome) =>
      outcome.state === 'reported' ? [{ work_order: outcome.workOrder, manifest: outcome.manifest }] : [],
    )
    await enterReports(path, reports, signerFor(how))
  } catch (cause) {
    if (!(cause instanceof JobError)) throw cause
    printProblems(how.texts, '.', cause.problems)
    process.exitCode = EXIT.cannotWrite
  }
}
