import { readFileSync } from 'node:fs'
import { parse } from 'yaml'
import { z } from 'zod'
import type { PageOptions } from '../batch/run-job.ts'
import { loadLimits, withValues } from '../limits/limits.ts'
import { proofSchema } from '../prove/proof.ts'
import { UsageError } from './usage-error.ts'

/** Reads the files named by --limits and --proof. @throws UsageError naming the file and what is wrong with it */
export function readHandedIn({ limits, proof }: { limits: string | undefined; proof: string | undefined }): Pick<PageOptions, 'limits' | 'proof'> {
  return {
    ...(limits === undefined ? {} : { limits: readAs(limits, (text) => {
      const values = z.record(z.string(), z.number()).parse(parse(text))
      withValues(loadLimits(), values)
      return values
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
