import { sampleRateOf } from '../units/sample-rate.ts'
import { UsageError } from './usage-error.ts'

/** How a rate is said on the command line. */
export const RATE_OPTION = {
  rate: {
    type: 'string',
    describe: 'Samples a second, or the time from one to the next (500k, 2 us), for files that do not say it',
  },
} as const

/** The rate of `--rate` in Hz, where it is one. @throws UsageError */
export function rateGiven(written: string | undefined): number | undefined {
  if (written === undefined) return undefined
  const hz = sampleRateOf(written) ?? (/^\d+(\.\d+)?$/.test(written) ? Number(written) : undefined)
  if (hz !== undefined && hz > 0 && Number.isFinite(hz)) return hz
  throw new UsageError(
    `--rate ${written}: write samples a second or the time from one to the next: 500k, 2 us`,
  )
}
