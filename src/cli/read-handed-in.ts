import { parse } from 'yaml'
import { z } from 'zod'
import type { PageOptions } from '../chain/run-job.ts'
import { loadCauses } from '../limits/load-causes.ts'
import { proofSchema } from '../records/proof.ts'
import { causesInForce } from '../verdicts/causes/override.ts'
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
    ...(causes === undefined
      ? {}
      : {
          causes: readAs({ path: causes, option: 'causes' }, (text) => {
            const own = z.record(z.string(), z.unknown()).parse(parse(text))
            causesInForce({ shipped: loadCauses().shipped, overrides: own })
            return own
          }),
        }),
    ...(proof === undefined
      ? {}
      : { proof: readAs({ path: proof, option: 'proof' }, (text) => proofSchema.parse(JSON.parse(text))) }),
  }
}
