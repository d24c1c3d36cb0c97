import { problem } from '../../problems/problem.ts'
import type { Check } from './check.ts'

/** Expanded (k = 2) voltage uncertainty taken where none is stated, in percent: the contract's default. */
export const DEFAULT_VOLTAGE_UNCERTAINTY_PERCENT = 10

/** Warns where the voltage uncertainty is not stated: every verdict's interval depends on it. */
export const statedUncertainty: Check = function* ({ instrument, instrumentGiven }, yaml) {
  const invalid = instrumentGiven && !instrument
  if (invalid || instrument?.voltage_uncertainty_percent !== undefined) return
  const place = yaml.keyPlace(['instrument', 'voltage_uncertainty_percent'])
  yield problem(
    'default-uncertainty',
    { ...place, severity: 'warn' },
    { percent: DEFAULT_VOLTAGE_UNCERTAINTY_PERCENT },
  )
}
