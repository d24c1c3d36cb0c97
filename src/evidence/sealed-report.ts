import type { MeasuredStore } from '../chain/measured-store.ts'
import { runJob, type JobOptions, type JobOutput, type PageOptions } from '../chain/run-job.ts'
import { signerFor } from '../seal/signing-key.ts'
import type { Texts } from '../texts/messages.ts'
import { marksOf } from '../chain/vehicle-marks.ts'
import { holdOf } from './history-index.ts'
import { madeForHistory, madeForReissue } from './made-for-call.ts'
import type { MadeWith } from './made-with.ts'
import { sealOutputs } from './seal-outputs.ts'

/** Choices of a call, what its outputs are made with, and where measurements are kept. */
export interface SealedOptions extends PageOptions {
  made: MadeWith
  store: MeasuredStore
}

/**
 * One job from folder to sealed files: the chain, then the seal over what it drew.
 *
 * @param folder  absolute path of the job folder
 * @throws JobError with all problems of the job
 */
export async function sealedReport(folder: string, options: SealedOptions, texts: Texts): Promise<JobOutput> {
  const { made, ...choices } = options
  const signer = signerFor(options)
  const holds: NonNullable<JobOptions['holds']> = (earlier) => holdOf(earlier, signer?.publicKey)
  const output = await runJob(folder, { ...choices, program: made.program, holds }, texts)
  const { result, files } = output
  const how = {
    made: madeForHistory(madeForReissue(made, result.revision?.replaces.result_sha256), options.history, {
      workOrder: result.job.work_order,
      opened: result.job.opened,
      vehicle: marksOf(result.job),
    }),
    verdict: result.conclusion.headline.text,
    signer,
  }
  return { ...output, files: sealOutputs(result, files, how) }
}
