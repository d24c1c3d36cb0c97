import { UsageError } from './usage-error.ts'

/** The rate of `--rate`, where it is one. @throws UsageError */
export function rateGiven(rateHz: number | undefined): number | undefined {
  if (rateHz === undefined || (rateHz > 0 && Number.isFinite(rateHz))) return rateHz
  throw new UsageError('--rate is a number above 0, in samples a second')
}
