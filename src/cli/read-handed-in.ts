import type { PageOptions } from '../chain/run-job.ts'
import { proofSchema } from '../records/proof.ts'
import { readCauses } from './read-causes.ts'
import { readAs, readLimits } from './read-limits.ts'

/** Files named on the command line. */
export interface HandedIn {
  limits: string | undefined
  causes: string | undefined
  proof: string | undefined
}

/** Reads the files named by --limits, --causes and --proof. @throws UsageError naming the file and what is wrong with it */
export function readHandedIn({
  limits,
  causes,
  proof,
}: HandedIn): Pick<PageOptions, 'limits' | 'reading' | 'causes' | 'proof'> {
  return {
    ...(limits === undefined ? {} : readLimits(limits)),
    ...(causes === undefined ? {} : { causes: readCauses(causes) }),
    ...(proof === undefined
      ? {}
      : { proof: readAs({ path: proof, option: 'proof' }, (text) => proofSchema.parse(JSON.parse(text))) }),
  }
}
