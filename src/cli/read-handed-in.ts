import { readFileSync } from 'node:fs'
import { parse } from 'yaml'
import { z } from 'zod'
import type { PageOptions } from '../batch/run-job.ts'
import { loadCauses } from '../limits/load-causes.ts'
import { loadLimits, withValues } from '../limits/limits.ts'
import { proofSchema } from '../prove/proof.ts'
import { causesInForce } from '../verdicts/causes/override.ts'
import { UsageError } from './usage-error.ts'

/** Files named on the command line. */
export interface HandedIn { limits: string | undefined; causes: string | undefined; proof: string | undefined }

/** Reads the files named by --limits, --causes and --proof. @throws UsageError naming the file and what is wrong with it */
export function readHandedIn({ limits, causes, proof }: HandedIn): Pick<PageOptions, 'limits' | 'causes' | 'proof'> {
  return {
    ...(limits === undefined ? {} : { limits: readAs(limits, (text) => {
      const values = z.record(z.string(), z.number()).parse(parse(text))
      withValues(loadLimits(), values)
      return values
    }) }),
    ...(causes === undefined ? {} : { causes: readAs(causes, (text) => {
      const own = z.record(z.string(), z.unknown()).parse(parse(text))
      causesInForce({ shipped: loadCauses().shipped, overrides: own })
      return own
    }) }),
    ...(proof === undefined ? {} : { proof: readAs(proof, (text) => proofSchema.parse(JSON.parse(text))) }),
  }
}

function readAs<T>(path: string, read: (text: string) => T): T {
  try {
    return read(readFileSync(path, 'utf8'))
  } catch (cause) {
    const why = cause instanceof z.ZodError ? cause.issues.map((i) => `${i.path.join('.')}: ${i.message}`).join('; ') : (cause as Error).message
    throw new UsageError(`${path}: ${why}`)
  }
}
